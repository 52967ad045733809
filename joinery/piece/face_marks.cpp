#include "joinery/piece/face_marks.h"

#include <algorithm>
#include <set>

namespace dryfit::joinery {
namespace {

/// How many joints enter the part by a face.
std::size_t jointsBy(const PlacedPart& part, LocalFace face) {
  std::set<JointId> joints;
  for (const Feature& feature : part.features) {
    if (feature.stage == Stage::cut && feature.face == face) joints.insert(feature.joint);
  }
  return joints.size();
}

/// A mark, and whether the opposite face would do as well.
struct Choice {
  LocalFace face;
  bool free = false;
};

/// The near face across an axis, or the far one where more joints enter by it.
Choice busier(const PlacedPart& part, int axis) {
  const LocalFace near = part.local(faceOf(part.along[axis], false));
  const LocalFace far{axis, !near.far};
  const auto tapered = [&](LocalFace face) {
    return std::ranges::find(part.tapers, face, &PlacedTaper::face) != part.tapers.end();
  };
  if (tapered(far) != tapered(near))
    return tapered(far) ? Choice{near} : Choice{far};  // it needs a straight face
  const std::size_t nearJoints = jointsBy(part, near), farJoints = jointsBy(part, far);
  return {farJoints > nearJoints ? far : near, farJoints == nearJoints};
}

/// True where a taper of the part lies opposite to the mark across this size.
bool taperReads(const Model& model, const Part& part, SizeName size) {
  return std::ranges::any_of(model.tapers, [&](const Taper& taper) {
    return !taper.face && taper.size == size &&
           std::ranges::find(taper.parts, part.name) != taper.parts.end();
  });
}

}  // namespace

void chooseFaceMarks(Piece& piece) {
  for (PlacedPart& part : piece.parts) {
    const Part& described = piece.part(part.id);
    if (!described.faceSide && !taperReads(piece.model, described, SizeName::thickness)) {
      const Choice side = busier(part, indexOf(PartAxis::thickness));
      part.faceSide = side.face;
      part.faceSideFree = side.free;
    }
    if (!described.faceEdge && !taperReads(piece.model, described, SizeName::width)) {
      const Choice edge = busier(part, indexOf(PartAxis::width));
      part.faceEdge = edge.face;
      part.faceEdgeFree = edge.free;
    }
  }
}

}  // namespace dryfit::joinery

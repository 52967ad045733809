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

/// The near face across an axis, or the far one where more joints enter by it.
LocalFace busier(const PlacedPart& part, int axis) {
  const LocalFace near = part.local(faceOf(part.along[axis], false));
  const LocalFace far{axis, !near.far};
  const auto tapered = [&](LocalFace face) {
    return std::ranges::find(part.tapers, face, &PlacedTaper::face) != part.tapers.end();
  };
  if (tapered(far) != tapered(near))
    return tapered(far) ? near : far;  // a mark needs a straight face
  return jointsBy(part, far) > jointsBy(part, near) ? far : near;
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
      part.faceSide = busier(part, indexOf(PartAxis::thickness));
    }
    if (!described.faceEdge && !taperReads(piece.model, described, SizeName::width)) {
      part.faceEdge = busier(part, indexOf(PartAxis::width));
    }
  }
}

}  // namespace dryfit::joinery

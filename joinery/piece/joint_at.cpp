#include "joinery/piece/joint_at.h"

#include <algorithm>

namespace dryfit::joinery {
namespace {

constexpr double kNear = 0.2;  // mm: a cheek stands back by half of the fit

bool holds(const kernel::Box3& box, kernel::Point3 p) {
  for (int axis = 0; axis < 3; ++axis) {
    if (p[axis] < box.min[axis] || p[axis] > box.max[axis]) return false;
  }
  return true;
}

}  // namespace

std::optional<JointId> jointAt(const Piece& piece, PartId part, kernel::Point3 at) {
  const PlacedPart& own = piece.parts[part.index()];
  const kernel::Point3 local = own.frame.local(at);
  const Feature* nearest = nullptr;
  for (const Feature& feature : own.features) {
    if (!holds(feature.extent.grown(kNear), local)) continue;
    if (nearest == nullptr || feature.extent.volume() < nearest->extent.volume()) {
      nearest = &feature;
    }
  }
  return nearest == nullptr ? std::nullopt : std::optional(nearest->joint);
}

std::vector<JointId> jointsAt(const Piece& piece, const PlaceOnPart& place) {
  const PlacedPart& own = piece.parts[place.part.index()];
  std::vector<JointId> joints;
  for (const Feature& feature : own.features) {
    const bool here = std::ranges::any_of(
        place.faces, [&](Face face) { return own.local(face) == feature.face; });
    if (here && std::ranges::find(joints, feature.joint) == joints.end()) {
      joints.push_back(feature.joint);
    }
  }
  std::ranges::sort(joints, {}, [](JointId id) { return id.index(); });
  return joints;
}

}  // namespace dryfit::joinery

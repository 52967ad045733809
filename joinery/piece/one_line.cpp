#include "joinery/piece/one_line.h"

#include <algorithm>
#include <cmath>
#include <variant>

#include "kernel/geometry.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

using kernel::Vec3;

kernel::Box3 moved(const kernel::Box3& box, Vec3 by) {
  return {box.min + by, box.max + by};
}

void move(Feature& feature, Vec3 by) {
  feature.extent = moved(feature.extent, by);
  auto* block = std::get_if<kernel::Block>(&feature.tool);
  if (block == nullptr) return;
  if (block->frame == kernel::Frame{}) {
    block->box = moved(block->box, by);
  } else {
    block->frame.origin = block->frame.origin + by;
  }
}

/// The mark from which the cheeks are set out, as +1 where it lies at their far side, else -1.
double markSide(const PlacedPart& part, int axis) {
  const LocalFace mark = part.faceSide.axis == axis ? part.faceSide : part.faceEdge;
  return mark.far ? 1 : -1;
}

/// What goes in, toward the mark: at most to the face of its own part.
void moveInserts(PlacedPart& part, const PlacedJoint& joint, double by) {
  const int axis = joint.sharedPlay->axis;
  for (Feature& feature : part.features) {
    if (feature.joint != joint.id || feature.stage != Stage::insert) continue;
    const double room =
        by > 0 ? part.size[axis] - feature.extent.max[axis] : feature.extent.min[axis];
    Vec3 way{0, 0, 0};
    way.set(axis, std::copysign(std::fmin(std::fabs(by), std::fmax(room, 0)), by));
    move(feature, way);
  }
}

/// What ran out at a face of the wood still does, and no further: the tool runs past it.
void keepOpenEnds(const PlacedPart& part, const kernel::Box3& before, kernel::Box3& extent) {
  for (int axis = 0; axis < 3; ++axis) {
    if (before.min[axis] <= kernel::kContact) extent.min.set(axis, before.min[axis]);
    if (before.max[axis] >= part.size[axis] - kernel::kContact) {
      extent.max.set(axis, before.max[axis]);
    }
  }
}

/// The pockets in the other mates, away from the mark.
void movePockets(Piece& piece, const PlacedJoint& joint, Vec3 by) {
  for (std::size_t i = 1; i < joint.mates.size(); ++i) {
    PlacedPart& mate = piece.parts[joint.mates[i].index()];
    const Vec3 way = mate.frame.inverse().turn(by);
    for (Feature& feature : mate.features) {
      if (feature.joint != joint.id || feature.stage != Stage::cut) continue;
      const kernel::Box3 before = feature.extent;
      move(feature, way);
      keepOpenEnds(mate, before, feature.extent);
    }
  }
}

}  // namespace

void setOutFromOneLine(Piece& piece) {
  for (const PlacedJoint& joint : piece.joints) {
    if (!joint.sharedPlay || joint.fit == 0) continue;
    PlacedPart& first = piece.parts[joint.mates.front().index()];
    const int axis = joint.sharedPlay->axis;
    const double by = markSide(first, axis) * joint.fit / 2;
    if (joint.sharedPlay->ofPocket) {
      movePockets(piece, joint, first.frame.axis(axis) * -by);
    } else {
      moveInserts(first, joint, by);
    }
  }
}

}  // namespace dryfit::joinery

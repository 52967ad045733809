#include "export/drawing/leaning_cut.h"

#include <cmath>
#include <numbers>
#include <variant>

#include "kernel/tolerance.h"

namespace dryfit::exporting {
namespace {

using kernel::Block;
using kernel::Box3;
using kernel::Point3;
using kernel::Vec3;

/// A corner of the block, in the part's frame: bit k of `which` picks the far side of its axis k.
Point3 corner(const Block& block, unsigned which) {
  Point3 p;
  for (int axis = 0; axis < 3; ++axis) {
    p.set(axis, (which >> axis & 1U) != 0 ? block.box.max[axis] : block.box.min[axis]);
  }
  return block.frame.place(p);
}

/// Where the plane of a face goes through the block; none where it misses it.
std::optional<Box3> crossing(const Block& block, int axis, double plane) {
  std::optional<Box3> flat;
  for (unsigned from = 0; from < 8; ++from) {
    for (unsigned bit = 1; bit < 8; bit <<= 1U) {
      if ((from & bit) != 0) continue;
      const Point3 a = corner(block, from), b = corner(block, from | bit);
      if ((a[axis] - plane) * (b[axis] - plane) > 0 || a[axis] == b[axis]) continue;
      const Point3 p = a + (b - a) * ((plane - a[axis]) / (b[axis] - a[axis]));
      flat = flat ? flat->united({p, p}) : Box3{p, p};
    }
  }
  return flat;
}

/// The block's axis that is nearest to an axis of the part.
int nearestAxis(const Block& block, int axis) {
  int best = 0;
  for (int k = 1; k < 3; ++k) {
    if (std::fabs(block.frame.axis(k)[axis]) > std::fabs(block.frame.axis(best)[axis])) best = k;
  }
  return best;
}

double degreesOf(double slope) {
  return std::atan(slope) * 180 / std::numbers::pi;
}

/// How deep the wall at one side of the block's axis u is, along the wall, from the face's plane.
double wallDepth(const Block& block, int into, int u, bool farWall, joinery::LocalFace face,
                 double plane) {
  const Vec3 in = block.frame.axis(into);
  const bool floorFar = in[face.axis] * face.sign() < 0;
  Point3 p = block.box.centre();
  p.set(u, farWall ? block.box.max[u] : block.box.min[u]);
  p.set(into, floorFar ? block.box.max[into] : block.box.min[into]);
  return std::fabs((block.frame.place(p)[face.axis] - plane) / in[face.axis]);
}

}  // namespace

std::optional<LeaningCut> leaningCut(const joinery::PlacedPart& part,
                                     const joinery::Feature& feature) {
  const auto* block = std::get_if<Block>(&feature.tool);
  const joinery::LocalFace face = feature.face;
  if (block == nullptr || feature.stage != joinery::Stage::cut || face.axis == 0 ||
      block->frame.isSquare()) {
    return std::nullopt;
  }
  const int into = nearestAxis(*block, face.axis);
  const int across = 3 - face.axis;
  Vec3 in = block->frame.axis(into);
  if (in[face.axis] * face.sign() > 0) in = -in;
  const double deep = std::fabs(in[face.axis]);
  if (deep > 1 - kernel::kParallel) return std::nullopt;

  LeaningCut cut;
  cut.axis = std::fabs(in.x) >= std::fabs(in[across]) ? 0 : across;
  const int other = cut.axis == 0 ? across : 0;
  cut.degrees = degreesOf(in[cut.axis] / deep);
  cut.degreesAcross = degreesOf(in[other] / deep);
  const double plane = face.far ? part.size[face.axis] : 0;
  const auto opening = crossing(*block, face.axis, plane);
  if (!opening) return std::nullopt;
  cut.opening = opening->common(part.blank().grown(kernel::kContact));
  if (feature.through) cut.exit = crossing(*block, face.axis, part.size[face.axis] - plane);
  const int u = nearestAxis(*block, cut.axis);
  const bool turned = block->frame.axis(u)[cut.axis] < 0;
  for (const bool far : {false, true}) {
    cut.walls[far ? 1 : 0] = wallDepth(*block, into, u, far != turned, face, plane);
  }
  return cut;
}

}  // namespace dryfit::exporting

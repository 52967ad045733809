#include "export/drawing/feature_places.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "joinery/piece/over_run.h"
#include "joinery/piece/true_lengths.h"
#include "kernel/tolerance.h"

namespace dryfit::exporting {
namespace {

using joinery::Feature;
using joinery::PlacedPart;
using kernel::Vec3;

/// True where the feature's low or high end along the axis is the part's own, or opens into another
/// cut as deep, as a housing does into the rebate of a back.
bool opens(const PlacedPart& part, const Feature& f, int along, bool high) {
  constexpr double kNear = kernel::kDrawnAlike;
  const double end = high ? f.extent.max[along] : f.extent.min[along];
  if (high ? end >= part.size[along] - kNear : end <= kNear) return true;
  const double past = high ? end + 2 * kNear : end - 2 * kNear;
  return std::ranges::any_of(part.features, [&](const Feature& other) {
    if (&other == &f || other.stage != joinery::Stage::cut) return false;
    for (int axis = 0; axis < 3; ++axis) {
      const double low = axis == along ? past : f.extent.min[axis];
      const double top = axis == along ? past : f.extent.max[axis];
      if (other.extent.min[axis] > low + kNear) return false;
      if (other.extent.max[axis] < top - kNear) return false;
    }
    return true;
  });
}

}  // namespace

int stoppedEnds(const PlacedPart& part, const Feature& f) {
  if (!joinery::runsAlong(f.purpose)) return 0;
  const Vec3 size = f.extent.size();
  const int u = (f.face.axis + 1) % 3, v = (f.face.axis + 2) % 3;
  const int along = f.run.value_or(size[u] >= size[v] ? u : v);
  return (opens(part, f, along, false) ? 0 : 1) + (opens(part, f, along, true) ? 0 : 1);
}

std::array<double, 2> Slope::sidesAt(double at) const {
  const double half = width / 2 * std::hypot(1.0, lean);
  const double centre = middle + lean * at;
  return {centre - half, centre + half};
}

std::optional<Slope> slopeOf(const Feature& feature) {
  const auto* block = std::get_if<kernel::Block>(&feature.tool);
  if (block == nullptr || feature.face.axis == 0 || block->frame.isSquare()) return std::nullopt;
  // One axis of the block goes straight into the face; of the other two the longer is its run.
  int into = 0;
  while (into < 3 && std::fabs(block->frame.axis(into)[feature.face.axis]) < 1 - kernel::kParallel)
    ++into;
  if (into == 3) return std::nullopt;
  const Vec3 size = block->box.size();
  const int u = (into + 1) % 3;
  const int v = (into + 2) % 3;
  const int run = size[u] >= size[v] ? u : v;
  const Vec3 along = block->frame.axis(run);
  const int across = 3 - feature.face.axis;
  if (std::fabs(along[across]) < kernel::kCrossing) return std::nullopt;
  const double lean = along.x / along[across];
  const kernel::Point3 centre = block->frame.place(block->box.centre());
  return Slope{size[run == u ? v : u], std::atan(lean) * 180 / std::numbers::pi, across,
               centre.x - lean * centre[across], lean};
}

kernel::Box3 workedExtent(const PlacedPart& part, const Feature& feature) {
  kernel::Box3 worked = feature.extent;
  const auto* block = std::get_if<kernel::Block>(&feature.tool);
  if (feature.stage != joinery::Stage::cut || block == nullptr || !block->frame.isSquare()) {
    return worked;
  }
  const kernel::Box3 tool = kernel::boundsOf(block->frame, block->box);
  // What runs past the end by no more than this only leaves no skin.
  constexpr double kMore = joinery::kOverRun + kernel::kDrawnAlike;
  for (const Feature& f : part.features) {
    if (!standsOut(f.purpose) || f.face.axis != 0) continue;
    const kernel::Box3 shared = tool.common(f.extent);
    if (shared.volume() <= kernel::kSliverVolume) continue;
    if (!f.face.far && tool.min.x < -kMore) worked.min.x = std::min(worked.min.x, shared.min.x);
    if (f.face.far && tool.max.x > part.size.x + kMore) {
      worked.max.x = std::max(worked.max.x, shared.max.x);
    }
  }
  return worked;
}

bool reachesBothEnds(const PlacedPart& part, const Feature& feature, int axis) {
  const kernel::Box3 worked = workedExtent(part, feature);
  const double low = worked.min[axis];
  const double high = worked.max[axis];
  const double size = part.size[axis];
  const bool runs = joinery::runsAlong(feature.purpose);
  const auto atEnd = [&](bool far) {
    if (runs) return opens(part, feature, axis, far);
    return far ? high >= size - kernel::kDrawnAlike : low <= kernel::kDrawnAlike;
  };
  if (!atEnd(false) || !atEnd(true)) return false;
  if (standsOut(feature.purpose)) return true;
  const kernel::Box3 wood = part.overall();
  return (low >= -kernel::kDrawnAlike || low <= wood.min[axis] + kernel::kDrawnAlike) &&
         (high <= size + kernel::kDrawnAlike || high >= wood.max[axis] - kernel::kDrawnAlike);
}

bool isRound(const Feature& feature) {
  return std::holds_alternative<kernel::Cylinder>(feature.tool);
}

bool isSlantedEnd(const Feature& feature) {
  return feature.face.axis == 0 && feature.purpose == joinery::Purpose::shoulderFit;
}

double datumOf(const PlacedPart& part) {
  return joinery::shoulderLines(part).at(part.faceEdge.far, part.faceSide.far).lo;
}

}  // namespace dryfit::exporting

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

/// True for a cut that fills its extent: a plain block, square to the part.
bool isSquareCut(const Feature& f) {
  const auto* block = std::get_if<kernel::Block>(&f.tool);
  return f.stage == joinery::Stage::cut && block != nullptr && block->frame.isSquare();
}

/// True where the box lies within the other across an axis, to what is drawn alike.
bool sectionWithin(const kernel::Box3& inner, const kernel::Box3& outer, int along) {
  for (int axis = 0; axis < 3; ++axis) {
    if (axis == along) continue;
    if (outer.min[axis] > inner.min[axis] + kernel::kDrawnAlike) return false;
    if (outer.max[axis] < inner.max[axis] - kernel::kDrawnAlike) return false;
  }
  return true;
}

int runAxis(const Feature& f) {
  if (f.run) return *f.run;
  if (const auto slope = slopeOf(f)) return slope->across;
  const Vec3 size = f.extent.size();
  const int u = (f.face.axis + 1) % 3, v = (f.face.axis + 2) % 3;
  return size[u] >= size[v] ? u : v;
}

/// From where to where the wood is open along a cut's run: what opens into others as deep, as a
/// housing does into the rebate of a back or one panel's groove into the next one's, goes on there.
std::array<double, 2> openRun(const PlacedPart& part, const Feature& f) {
  const int along = runAxis(f);
  std::array<double, 2> run{f.extent.min[along], f.extent.max[along]};
  for (std::size_t grown = 0; grown < part.features.size(); ++grown) {
    const std::array<double, 2> before = run;
    for (const Feature& other : part.features) {
      if (!isSquareCut(other) || !sectionWithin(f.extent, other.extent, along)) continue;
      const double low = other.extent.min[along], high = other.extent.max[along];
      if (low > run[1] + kernel::kDrawnAlike || high < run[0] - kernel::kDrawnAlike) continue;
      run = {std::fmin(run[0], low), std::fmax(run[1], high)};
    }
    if (run == before) break;
  }
  return run;
}

}  // namespace

std::optional<std::size_t> cutWith(const PlacedPart& part, const Feature& f) {
  if (!isSquareCut(f)) return std::nullopt;
  std::optional<std::size_t> longest;
  double most = 0;
  for (std::size_t i = 0; i < part.features.size(); ++i) {
    const Feature& other = part.features[i];
    if (other.face != f.face || !isSquareCut(other) || !joinery::runsAlong(other.purpose)) continue;
    const int along = runAxis(other);
    if (!sectionWithin(f.extent, other.extent, along)) continue;
    if (!sectionWithin(other.extent, f.extent, along)) continue;
    const auto run = openRun(part, other);
    if (f.extent.min[along] < run[0] - kernel::kDrawnAlike) continue;
    if (f.extent.max[along] > run[1] + kernel::kDrawnAlike) continue;
    const double length = other.extent.size()[along];
    if (longest && length <= most + kernel::kDrawnAlike) continue;
    longest = i;
    most = length;
  }
  return longest && &part.features[*longest] != &f ? longest : std::nullopt;
}

int stoppedEnds(const PlacedPart& part, const Feature& f) {
  if (!joinery::runsAlong(f.purpose) || cutWith(part, f)) return 0;
  constexpr double kNear = kernel::kDrawnAlike;
  const int along = runAxis(f);
  const auto run = openRun(part, f);
  const double size = part.size[along];
  const kernel::Box3 wood = part.overall();
  // Past a shoulder there may be a tongue, in which the cut may end as well.
  const bool near = run[0] > kNear || (run[0] < -kNear && run[0] > wood.min[along] + kNear);
  const bool far =
      run[1] < size - kNear || (run[1] > size + kNear && run[1] < wood.max[along] - kNear);
  return (near ? 1 : 0) + (far ? 1 : 0);
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
  return Slope{
      size[run == u ? v : u],           size[run], std::atan(lean) * 180 / std::numbers::pi, across,
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
  if (joinery::runsAlong(feature.purpose) && axis == runAxis(feature)) {
    if (cutWith(part, feature) || stoppedEnds(part, feature) > 0) return false;
  } else if (low > kernel::kDrawnAlike || high < size - kernel::kDrawnAlike) {
    return false;
  }
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

#include "kernel/src/square_measure.h"

#include <algorithm>
#include <utility>
#include <vector>

#include "kernel/src/bores.h"
#include "kernel/src/square_overlap.h"
#include "kernel/src/square_turn.h"
#include "kernel/tolerance.h"

namespace dryfit::kernel {
namespace {

/// Where b stands as seen from a, when both are square work and square to each other.
std::optional<Frame> squareBetween(const Solid::Impl& a, const Solid::Impl& b) {
  if (!a.square || !b.square) return {};
  const Frame between = a.frame.inverse().after(b.frame);
  if (!between.isSquare()) return {};
  return snapped(between);
}

std::vector<Box3> placedBoxes(const std::vector<Box3>& boxes, const Frame& frame) {
  std::vector<Box3> placed;
  placed.reserve(boxes.size());
  for (const Box3& box : boxes) placed.push_back(cornersPlaced(frame, box));
  return placed;
}

void keepNear(std::vector<Box3>& boxes, const Box3& near) {
  std::erase_if(boxes, [&](const Box3& box) { return box.common(near).empty(); });
}

/// Whether a bore takes of the shared boxes, so that these are not what is shared. `frame` is where
/// the bored wood stands.
bool boreTakesOf(const std::vector<Box3>& shared, const SquareWork& work, const Frame& frame) {
  return std::any_of(work.bores.begin(), work.bores.end(), [&](const SquareWork::Bore& bore) {
    const Box3 taken = cornersPlaced(frame, boundsOf(bore));
    return std::any_of(shared.begin(), shared.end(),
                       [&](const Box3& box) { return !box.common(taken).empty(); });
  });
}

/// What the shared boxes come to, in the frame they are stated in.
Overlap summed(const std::vector<Box3>& shared) {
  Overlap sum;
  Vec3 moment;
  const Point3 from = shared.front().min;
  sum.bounds = shared.front();
  for (const Box3& box : shared) {
    const double volume = box.volume();
    sum.volume += volume;
    moment = moment + (box.centre() - from) * volume;
    sum.bounds = sum.bounds.united(box);
  }
  sum.centre = from + moment * (1 / sum.volume);
  return sum;
}

}  // namespace

Box3 boundsOf(const SquareWork& work, const Frame& frame) {
  if (frame.isSquare()) return cornersPlaced(frame, work.bounds);
  const Point3 first = frame.place(work.at(work.corners.front()));
  Box3 box{first, first};
  for (const SquareWork::Corner& corner : work.corners) {
    const Point3 p = frame.place(work.at(corner));
    box = box.united({p, p});
  }
  return box;
}

std::optional<Overlap> squareOverlap(const Solid::Impl& a, const Solid::Impl& b) {
  const auto between = squareBetween(a, b);
  if (!between) return {};
  const SquareWork& mine = a.square->work;
  const SquareWork& other = b.square->work;
  const Box3 near = mine.bounds.common(cornersPlaced(*between, other.bounds));
  if (near.volume() < kSliverVolume) return Overlap{};
  std::vector<Box3> theirs = placedBoxes(other.boxes, *between);
  keepNear(theirs, near);
  std::sort(theirs.begin(), theirs.end(),
            [](const Box3& p, const Box3& q) { return p.min.x < q.min.x; });
  const std::vector<Box3> shared = sharedBoxes(mine.boxes, theirs);
  if (shared.empty()) return Overlap{};
  if (boreTakesOf(shared, mine, {}) || boreTakesOf(shared, other, *between)) return {};
  Overlap sum = summed(shared);
  if (sum.volume < kSliverVolume) return Overlap{};
  sum.centre = a.frame.place(sum.centre);
  if (a.frame.isSquare()) {
    sum.bounds = cornersPlaced(a.frame, sum.bounds);
  } else {
    sum.bounds = boundsOf(a.frame, shared.front());
    for (const Box3& box : shared) sum.bounds = sum.bounds.united(boundsOf(a.frame, box));
  }
  return sum;
}

std::optional<Solid> squareCommon(const Solid::Impl& a, const Solid::Impl& b) {
  const auto between = squareBetween(a, b);
  if (!between || !a.square->work.bores.empty() || !b.square->work.bores.empty()) return {};
  std::vector<Box3> theirs = placedBoxes(b.square->work.boxes, *between);
  std::sort(theirs.begin(), theirs.end(),
            [](const Box3& p, const Box3& q) { return p.min.x < q.min.x; });
  const std::vector<Box3> shared = sharedBoxes(a.square->work.boxes, theirs);
  if (shared.empty()) return {};
  Recipe recipe{Block{shared.front(), {}}, {{Step::Kind::add, {}}}};
  for (std::size_t i = 1; i < shared.size(); ++i) {
    recipe.steps.front().tools.emplace_back(Block{shared[i], {}});
  }
  auto work = arrange(recipe);
  if (!work) return {};
  return squareSolid(std::move(*work)).placed(a.frame);
}

std::optional<double> squareDistance(const Solid::Impl& a, const Solid::Impl& b) {
  const auto between = squareBetween(a, b);
  // Over a bore's mouth the distance is greater than that of the boxes.
  if (!between || !a.square->work.bores.empty() || !b.square->work.bores.empty()) return {};
  return gapBetween(a.square->work.boxes, placedBoxes(b.square->work.boxes, *between));
}

}  // namespace dryfit::kernel

#include "kernel/src/square_overlap.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "kernel/tolerance.h"

namespace dryfit::kernel {
namespace {

double thickness(const Box3& box) {
  const Vec3 s = box.size();
  return std::fmin(s.x, std::fmin(s.y, s.z));
}

bool shareAFace(const Box3& a, const Box3& b) {
  const Vec3 s = a.common(b).size();
  return s.x >= 0 && s.y >= 0 && s.z >= 0 && (s.x > 0) + (s.y > 0) + (s.z > 0) == 2;
}

/// Drops the pieces of a set of boxes that are films. A film that hangs on thicker wood stays: it
/// is the thicker wood's edge.
void dropFilms(std::vector<Box3>& boxes) {
  const auto films = std::stable_partition(
      boxes.begin(), boxes.end(), [](const Box3& box) { return thickness(box) >= kContact; });
  if (films == boxes.end()) return;
  // Boxes before `kept` are part of some thick piece; each pulls in the films that lie on it.
  auto kept = films;
  for (auto i = boxes.begin(); i != kept; ++i) {
    kept = std::partition(kept, boxes.end(), [&](const Box3& box) { return shareAFace(*i, box); });
  }
  boxes.erase(kept, boxes.end());
}

}  // namespace

std::vector<Box3> sharedBoxes(std::span<const Box3> a, std::span<const Box3> b) {
  double widest = 0;
  for (const Box3& box : b) widest = std::fmax(widest, box.size().x);
  std::vector<Box3> shared;
  for (const Box3& mine : a) {
    // Boxes of b that start further left than this end left of `mine`.
    const double from = mine.min.x - widest;
    auto other = std::lower_bound(b.begin(), b.end(), from,
                                  [](const Box3& box, double x) { return box.min.x < x; });
    for (; other != b.end() && other->min.x < mine.max.x; ++other) {
      const Box3 both = mine.common(*other);
      if (!both.empty()) shared.push_back(both);
    }
  }
  dropFilms(shared);
  return shared;
}

double gapBetween(const Box3& a, const Box3& b) {
  Vec3 gap;
  for (int axis = 0; axis < 3; ++axis) {
    gap.set(axis, std::fmax(0, std::fmax(a.min[axis] - b.max[axis], b.min[axis] - a.max[axis])));
  }
  return gap.norm();
}

double gapBetween(std::span<const Box3> a, std::span<const Box3> b) {
  Box3 aroundB = b.front();
  for (const Box3& box : b) aroundB = aroundB.united(box);
  double least = std::numeric_limits<double>::infinity();
  for (const Box3& mine : a) {
    if (gapBetween(mine, aroundB) >= least) continue;
    for (const Box3& other : b) {
      // Along x alone is often enough to tell, and costs no root.
      if (other.min.x - mine.max.x >= least || mine.min.x - other.max.x >= least) continue;
      least = std::fmin(least, gapBetween(mine, other));
    }
    if (least == 0) break;
  }
  return least;
}

}  // namespace dryfit::kernel

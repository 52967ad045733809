#include "kernel/src/ear_clip.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace dryfit::kernel {
namespace {

/// Twice the area of a triangle; > 0 where it turns counter-clockwise.
double turn(Point2 a, Point2 b, Point2 c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

class EarClipper {
 public:
  EarClipper(std::span<const Point2> corners, std::span<const int> ends) : corners_(corners) {
    for (int i = 0; i < ends[0]; ++i) ring_.push_back(i);
    joinHoles(ends);
  }

  std::vector<std::array<int, 3>> run() {
    std::vector<std::array<int, 3>> triangles;
    if (ring_.size() < 3) return triangles;
    triangles.reserve(ring_.size() - 2);
    std::size_t at = 0;
    std::size_t misses = 0;
    while (ring_.size() > 3 && misses < ring_.size()) {
      const std::size_t n = ring_.size();
      const std::size_t before = (at + n - 1) % n;
      const std::size_t after = (at + 1) % n;
      if (!isEar(before, at, after)) {
        at = after;
        ++misses;
        continue;
      }
      triangles.push_back({ring_[before], ring_[at], ring_[after]});
      ring_.erase(ring_.begin() + static_cast<std::ptrdiff_t>(at));
      at = before < at ? before : ring_.size() - 1;
      misses = 0;
    }
    if (ring_.size() == 3) triangles.push_back({ring_[0], ring_[1], ring_[2]});
    return triangles;
  }

 private:
  [[nodiscard]] Point2 point(std::size_t ringIndex) const { return corners_[ring_[ringIndex]]; }

  [[nodiscard]] bool isEar(std::size_t before, std::size_t at, std::size_t after) const {
    const Point2 a = point(before);
    const Point2 b = point(at);
    const Point2 c = point(after);
    if (turn(a, b, c) <= 0) return false;
    for (std::size_t i = 0; i < ring_.size(); ++i) {
      const Point2 p = point(i);
      // A bridge passes its corners twice: a corner of the ear itself is no hindrance.
      if (p == a || p == b || p == c) continue;
      if (turn(a, b, p) >= 0 && turn(b, c, p) >= 0 && turn(c, a, p) >= 0) return false;
    }
    return true;
  }

  /// Holes farthest to the right first, so that what a bridge meets is joined already.
  void joinHoles(std::span<const int> ends) {
    struct Hole {
      int first, last, rightmost;
    };
    std::vector<Hole> holes;
    for (std::size_t h = 1; h < ends.size(); ++h) {
      Hole hole{ends[h - 1], ends[h], ends[h - 1]};
      for (int i = hole.first; i < hole.last; ++i) {
        if (corners_[i].x > corners_[hole.rightmost].x) hole.rightmost = i;
      }
      holes.push_back(hole);
    }
    std::sort(holes.begin(), holes.end(), [&](const Hole& a, const Hole& b) {
      return corners_[a.rightmost].x > corners_[b.rightmost].x;
    });
    for (const Hole& hole : holes) {
      const std::size_t to = visibleFrom(corners_[hole.rightmost]);
      const int count = hole.last - hole.first;
      std::vector<int> bridge;
      for (int i = 0; i <= count; ++i) {
        bridge.push_back(hole.first + (hole.rightmost - hole.first + i) % count);
      }
      bridge.push_back(ring_[to]);
      ring_.insert(ring_.begin() + static_cast<std::ptrdiff_t>(to) + 1, bridge.begin(),
                   bridge.end());
    }
  }

  /// Whether a line from this corner to `to` starts out inside the ring.
  [[nodiscard]] bool opensTo(std::size_t i, Point2 to) const {
    const Point2 before = point((i + ring_.size() - 1) % ring_.size());
    const Point2 at = point(i);
    const Point2 after = point((i + 1) % ring_.size());
    const bool leftOfNext = turn(at, after, to) >= 0;
    const bool leftOfLast = turn(before, at, to) >= 0;
    return turn(before, at, after) > 0 ? leftOfNext && leftOfLast : leftOfNext || leftOfLast;
  }

  /// A corner of the ring that `from`, inside it, can be joined to by a straight line.
  [[nodiscard]] std::size_t visibleFrom(Point2 from) const {
    // The nearest edge to the right, and where on it the level line meets it.
    double nearest = std::numeric_limits<double>::infinity();
    std::size_t best = 0;
    for (std::size_t i = 0; i < ring_.size(); ++i) {
      const Point2 p = point(i);
      const Point2 q = point((i + 1) % ring_.size());
      if (p.y > from.y || q.y < from.y || p.y == q.y) continue;  // only edges going up face left
      const double x = p.x + (from.y - p.y) / (q.y - p.y) * (q.x - p.x);
      if (x < from.x || x >= nearest) continue;
      nearest = x;
      best = p.x > q.x ? i : (i + 1) % ring_.size();
    }
    const Point2 meeting{nearest, from.y};
    const Point2 candidate = point(best);
    if (candidate == meeting) return best;
    // A hollow corner within the triangle hides the candidate; the one nearest in angle does not.
    double least = std::numeric_limits<double>::infinity();
    const Point2 a = from;
    const Point2 b = candidate.y < from.y ? candidate : meeting;
    const Point2 c = candidate.y < from.y ? meeting : candidate;
    std::size_t found = best;
    for (std::size_t i = 0; i < ring_.size(); ++i) {
      const Point2 p = point(i);
      if (p == candidate || turn(a, b, p) < 0 || turn(b, c, p) < 0 || turn(c, a, p) < 0) continue;
      if (!opensTo(i, from)) continue;
      const double lean = std::fabs(p.y - from.y) / std::fmax(p.x - from.x, 1e-300);
      const bool nearer = lean < least || (lean == least && p.x < point(found).x);
      if (!nearer) continue;
      least = lean;
      found = i;
    }
    return found;
  }

  std::span<const Point2> corners_;
  std::vector<int> ring_;
};

}  // namespace

std::vector<std::array<int, 3>> clipEars(std::span<const Point2> corners,
                                         std::span<const int> ends) {
  auto triangles = EarClipper(corners, ends).run();
  // Bridges are passed once each way, so the triangles' turns add up to one turn round the area and
  // none round its holes, well bridged or not: they cover it once as long as none of them turns
  // back. Of the last three corners nothing has asked that yet.
  const bool whole = triangles.size() + 4 == corners.size() + 2 * ends.size() &&
                     std::ranges::all_of(triangles, [&](const std::array<int, 3>& t) {
                       return turn(corners[t[0]], corners[t[1]], corners[t[2]]) > 0;
                     });
  if (!whole) triangles.clear();
  return triangles;
}

}  // namespace dryfit::kernel

#include "kernel/src/outline.h"

#include <algorithm>
#include <cmath>

#include "kernel/tolerance.h"

namespace dryfit::kernel {
namespace {

double cross(Point2 o, Point2 a, Point2 b) {
  return (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x);
}

double distanceToSegment(Point2 p, Point2 a, Point2 b) {
  const double dx = b.x - a.x;
  const double dy = b.y - a.y;
  const double length2 = dx * dx + dy * dy;
  const double along =
      length2 > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / length2, 0.0, 1.0) : 0.0;
  return std::hypot(p.x - a.x - along * dx, p.y - a.y - along * dy);
}

bool segmentsMeet(Point2 a, Point2 b, Point2 c, Point2 d) {
  const bool crossing =
      (cross(a, b, c) > 0) != (cross(a, b, d) > 0) && (cross(c, d, a) > 0) != (cross(c, d, b) > 0);
  return crossing || distanceToSegment(a, c, d) < kContact ||
         distanceToSegment(b, c, d) < kContact || distanceToSegment(c, a, b) < kContact ||
         distanceToSegment(d, a, b) < kContact;
}

/// Whether two sides that are not neighbours meet, or two neighbours fold back on each other.
bool meetsItself(const std::vector<Point2>& p) {
  const std::size_t n = p.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Point2 a = p[i];
    const Point2 b = p[(i + 1) % n];
    if (distanceToSegment(p[(i + 2) % n], a, b) < kContact) return true;
    if (distanceToSegment(a, b, p[(i + 2) % n]) < kContact) return true;
    for (std::size_t j = i + 2; j < n; ++j) {
      if (i == 0 && j == n - 1) continue;
      if (segmentsMeet(a, b, p[j], p[(j + 1) % n])) return true;
    }
  }
  return false;
}

/// Drops each point that lies between its neighbours on a straight run.
void dropStraightPoints(std::vector<Point2>& p) {
  for (std::size_t i = 0; p.size() > 3 && i < p.size();) {
    const Point2 before = p[(i + p.size() - 1) % p.size()];
    const Point2 after = p[(i + 1) % p.size()];
    const bool forward =
        (p[i].x - before.x) * (after.x - p[i].x) + (p[i].y - before.y) * (after.y - p[i].y) > 0;
    // Only runs straight to rounding go: a real bend, however slight, is the maker's own.
    if (forward && distanceToSegment(p[i], before, after) < kStraight) {
      p.erase(p.begin() + static_cast<std::ptrdiff_t>(i));
    } else {
      ++i;
    }
  }
}

}  // namespace

double twiceArea(std::span<const Point2> p) {
  double sum = 0;
  // Relative to the first point, to keep the rounding small far from the origin.
  for (std::size_t i = 2; i < p.size(); ++i) sum += cross(p[0], p[i - 1], p[i]);
  return sum;
}

Result<std::vector<Point2>> cleanOutline(std::span<const Point2> outline) {
  const auto bad = [](const char* what, const char* mend) {
    return fail(ErrorCode::badDimension, what, {}, mend);
  };
  if (outline.size() < 3) return bad("the outline has too few points", "give three or more");
  for (const Point2& p : outline) {
    if (!(std::fabs(p.x) <= kLargest && std::fabs(p.y) <= kLargest)) {
      return bad("a point of the outline is out of reach",
                 "every place must be finite and within 100 m of the origin");
    }
  }
  std::vector<Point2> points(outline.begin(), outline.end());
  dropStraightPoints(points);
  if (meetsItself(points)) {
    return bad("the outline meets itself", "its sides may share nothing but their corners");
  }
  if (twiceArea(points) < 0) std::reverse(points.begin(), points.end());
  if (twiceArea(points) < kContact * kContact) {
    return bad("the outline encloses nothing", "its points must not lie on one line");
  }
  return points;
}

}  // namespace dryfit::kernel

#include "joinery/stock/outline.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>

namespace dryfit::joinery {
namespace {

double turn(FlatPoint a, FlatPoint b, FlatPoint c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

/// REQUIRES: c lies on the line through a and b.
bool between(FlatPoint a, FlatPoint b, FlatPoint c) {
  return std::min(a.x, b.x) <= c.x && c.x <= std::max(a.x, b.x) && std::min(a.y, b.y) <= c.y &&
         c.y <= std::max(a.y, b.y);
}

int sign(double value) {
  return value > 0 ? 1 : value < 0 ? -1 : 0;
}

bool meet(FlatPoint a, FlatPoint b, FlatPoint c, FlatPoint d) {
  const int abc = sign(turn(a, b, c)), abd = sign(turn(a, b, d));
  const int cda = sign(turn(c, d, a)), cdb = sign(turn(c, d, b));
  if (abc * abd < 0 && cda * cdb < 0) return true;
  return (abc == 0 && between(a, b, c)) || (abd == 0 && between(a, b, d)) ||
         (cda == 0 && between(c, d, a)) || (cdb == 0 && between(c, d, b));
}

/// Neighbours share the corner b: they may not fold back on each other.
bool foldsBack(FlatPoint a, FlatPoint b, FlatPoint c) {
  return turn(a, b, c) == 0 && (a.x - b.x) * (c.x - b.x) + (a.y - b.y) * (c.y - b.y) >= 0;
}

/// The part of an outline where `inside` is 0 or more; `inside` is linear.
std::vector<FlatPoint> clipped(const std::vector<FlatPoint>& outline,
                               const std::function<double(FlatPoint)>& inside) {
  std::vector<FlatPoint> kept;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const FlatPoint a = outline[i], b = outline[(i + 1) % outline.size()];
    const double at = inside(a), bt = inside(b);
    if (at >= 0) kept.push_back(a);
    if ((at >= 0) != (bt >= 0)) {
      const double t = at / (at - bt);
      kept.push_back({a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)});
    }
  }
  return kept;
}

}  // namespace

double areaOf(std::span<const FlatPoint> outline) {
  double twice = 0;
  for (std::size_t i = 1; i + 1 < outline.size(); ++i) {
    twice += turn(outline[0], outline[i], outline[i + 1]);
  }
  return std::fabs(twice) / 2;
}

bool crossesItself(std::span<const FlatPoint> outline) {
  const std::size_t n = outline.size();
  for (std::size_t i = 0; i < n; ++i) {
    const FlatPoint a = outline[i], b = outline[(i + 1) % n];
    if (foldsBack(a, b, outline[(i + 2) % n])) return true;
    for (std::size_t k = i + 2; k < n; ++k) {
      if (i == 0 && k == n - 1) continue;  // neighbours at the closing corner
      if (meet(a, b, outline[k], outline[(k + 1) % n])) return true;
    }
  }
  return false;
}

double sharedArea(std::span<const FlatPoint> outline, const FlatRect& rect) {
  // Clipped side by side; a hollow outline may leave joined lumps, whose area is still right.
  std::vector<FlatPoint> left(outline.begin(), outline.end());
  left = clipped(left, [&](FlatPoint p) { return p.x - rect.x; });
  left = clipped(left, [&](FlatPoint p) { return rect.farX() - p.x; });
  left = clipped(left, [&](FlatPoint p) { return p.y - rect.y; });
  left = clipped(left, [&](FlatPoint p) { return rect.farY() - p.y; });
  return areaOf(left);
}

}  // namespace dryfit::joinery

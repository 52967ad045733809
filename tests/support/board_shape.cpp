#include "tests/support/board_shape.h"

#include <algorithm>
#include <cmath>

namespace dryfit::test {

using joinery::FlatPoint;
using joinery::FlatRect;

namespace {

/// Whether a straight edge runs through the inside of a rectangle.
bool crosses(const FlatPoint& a, const FlatPoint& b, const FlatRect& rect) {
  double from = 0, to = 1;
  const double dx = b.x - a.x, dy = b.y - a.y;
  const auto clip = [&](double step, double room) {
    if (step == 0) return room > 0;
    const double t = room / step;
    if (step < 0) from = std::max(from, t);
    if (step > 0) to = std::min(to, t);
    return true;
  };
  return clip(-dx, a.x - rect.x) && clip(dx, rect.x + rect.length - a.x) &&
         clip(-dy, a.y - rect.y) && clip(dy, rect.y + rect.width - a.y) && from < to - 1e-12;
}

}  // namespace

BoardShape::BoardShape(const joinery::StockItem& item) : points_(item.outline) {
  if (points_.empty()) {
    points_ = {{0, 0}, {item.length, 0}, {item.length, item.farWidth}, {0, item.nearWidth}};
  }
}

FlatRect BoardShape::around() const {
  double x0 = points_[0].x, x1 = x0, y0 = points_[0].y, y1 = y0;
  for (const FlatPoint& p : points_) {
    x0 = std::min(x0, p.x);
    x1 = std::max(x1, p.x);
    y0 = std::min(y0, p.y);
    y1 = std::max(y1, p.y);
  }
  return {x0, y0, x1 - x0, y1 - y0};
}

double BoardShape::area() const {
  double sum = 0;
  for (std::size_t i = 0, j = points_.size() - 1; i < points_.size(); j = i++) {
    sum += (points_[j].x - points_[i].x) * (points_[j].y + points_[i].y) / 2;
  }
  return std::abs(sum);
}

bool BoardShape::holds(const FlatRect& rect, double end, double edge, double tolerance) const {
  const FlatRect box = around();
  if (rect.x < box.x + end - tolerance || rect.farX() > box.farX() - end + tolerance) return false;
  const FlatRect grown{rect.x + tolerance, rect.y - edge + tolerance, rect.length - 2 * tolerance,
                       rect.width + 2 * edge - 2 * tolerance};
  bool inside = false;
  const double x = grown.x + grown.length / 2, y = grown.y + grown.width / 2;
  for (std::size_t i = 0, j = points_.size() - 1; i < points_.size(); j = i++) {
    const FlatPoint &a = points_[j], &b = points_[i];
    if (crosses(a, b, grown)) return false;
    // A ray straight up from the middle.
    if ((a.x <= x) != (b.x <= x) && (b.y - a.y) * (x - a.x) / (b.x - a.x) + a.y > y) {
      inside = !inside;
    }
  }
  return inside;
}

}  // namespace dryfit::test

#include "export/layout/free_room.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "export/drawing/draughting.h"

namespace dryfit::exporting {
namespace {

constexpr double kStep = 1;        ///< of the search
constexpr double kHatchApart = 2;  ///< along x, mm

Box2 boxAt(Point2 middle, double width, double height) {
  return {{middle.x - width / 2, middle.y - height / 2},
          {middle.x + width / 2, middle.y + height / 2}};
}

/// The values of x for which the line y = x + c is inside the box.
std::pair<double, double> inside(const Box2& box, double c) {
  return {std::max(box.min.x, box.min.y - c), std::min(box.max.x, box.max.y - c)};
}

/// Offsets from the middle in steps, as far as half of `spare` each way.
std::vector<double> offsets(double spare) {
  std::vector<double> list{0};
  for (double d = kStep; d <= spare / 2 + 1e-9; d += kStep) {
    list.push_back(d);
    list.push_back(-d);
  }
  return list;
}

}  // namespace

bool FreeRoom::isFree(const Box2& box) const {
  return std::ranges::none_of(taken_, [&](const Box2& t) { return t.overlaps(box); });
}

std::optional<Point2> FreeRoom::spot(const Box2& room, double width, double height,
                                     Point2 wanted) const {
  const double spareX = room.width() - width;
  const double spareY = room.height() - height;
  if (room.empty() || spareX < 0 || spareY < 0) return std::nullopt;
  const Point2 middle = room.centre();
  std::optional<Point2> best;
  double bestAway = std::numeric_limits<double>::infinity();
  for (const double dy : offsets(spareY)) {
    for (const double dx : offsets(spareX)) {
      const Point2 at{middle.x + dx, middle.y + dy};
      const double away = std::hypot(at.x - wanted.x, at.y - wanted.y);
      if (away >= bestAway || !isFree(boxAt(at, width, height))) continue;
      best = at;
      bestAway = away;
    }
  }
  return best;
}

void addHatching(Ink& ink, const Box2& zone, const Box2& hole) {
  const auto line = [&](double from, double to, double c) {
    if (to - from < 0.05) return;
    addLine(ink, {from, from + c}, {to, to + c}, LineClass::dimension, Layer::hatching);
  };
  const double first = zone.min.y - zone.max.x;
  const double last = zone.max.y - zone.min.x;
  for (double c = std::ceil(first / kHatchApart) * kHatchApart; c < last; c += kHatchApart) {
    const auto [from, to] = inside(zone, c);
    const auto [holeFrom, holeTo] = inside(hole, c);
    if (hole.empty() || holeFrom >= holeTo) {
      line(from, to, c);
    } else {
      line(from, std::min(to, holeFrom), c);
      line(std::max(from, holeTo), to, c);
    }
  }
}

}  // namespace dryfit::exporting

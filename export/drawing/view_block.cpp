#include "export/drawing/view_block.h"

#include <algorithm>
#include <cmath>
#include <deque>
#include <limits>

#include "export/drawing/draughting.h"
#include "export/drawing/spread.h"
#include "export/drawing/text_measure.h"

namespace dryfit::exporting {
namespace {

constexpr double kBalloonAway = 5;  ///< from the outline to the nearer rim
constexpr double kBalloonPitch = 8.6;
constexpr double kNameAway = 2;
constexpr double kLeadersApart = 5;  ///< on paper, how far apart leaders should end

double distance(Point2 a, Point2 b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

/// True when some line of the ink passes through the box.
bool isCrossed(const Ink& ink, const Box2& box, bool mayCrossHidden) {
  return std::ranges::any_of(ink.marks, [&](const Mark& mark) {
    if (const auto* stroke = std::get_if<Stroke>(&mark)) {
      if (stroke->layer == Layer::hatching) return false;
      if (mayCrossHidden && stroke->layer == Layer::hidden) return false;
      std::vector<Point2> line = stroke->points;
      if (stroke->closed && !line.empty()) line.push_back(line.front());
      return !clipped(line, box).empty();
    }
    return boundsOf(mark).overlaps(box);
  });
}

}  // namespace

std::optional<Point2> freeSpot(const Ink& ink, const Box2& box, double width, double height,
                               Point2 wanted) {
  if (width > box.width() || height > box.height()) return std::nullopt;
  std::vector<Point2> candidates;
  const auto steps = [](double room) { return std::max(1, static_cast<int>(room / 1.5)); };
  const double roomX = box.width() - width;
  const double roomY = box.height() - height;
  for (int i = 0; i <= steps(roomX); ++i) {
    for (int j = 0; j <= steps(roomY); ++j) {
      candidates.push_back({box.min.x + width / 2 + roomX * i / steps(roomX),
                            box.min.y + height / 2 + roomY * j / steps(roomY)});
    }
  }
  std::ranges::stable_sort(candidates, {}, [&](Point2 p) { return distance(p, wanted); });
  // Over a hidden line where there is no better place near.
  constexpr double kNear = 30;
  for (const bool mayCrossHidden : {false, true}) {
    for (const Point2& p : candidates) {
      if (!mayCrossHidden && distance(p, wanted) > kNear) break;
      const Box2 spot{{p.x - width / 2, p.y - height / 2}, {p.x + width / 2, p.y + height / 2}};
      if (!isCrossed(ink, spot, mayCrossHidden)) return p;
    }
  }
  return std::nullopt;
}

ViewBlock::ViewBlock(const Projection& view, double scale, std::optional<Box2> window)
    : view_(&view), scale_(scale), window_(window) {
  const Box2 shown = window_.value_or(view.bounds());
  box_.add(Point2{shown.min.x * scale, shown.min.y * scale});
  box_.add(Point2{shown.max.x * scale, shown.max.y * scale});
  ink_ = inkOf(view, scale, window_);
  for (const Side side : {Side::top, Side::bottom, Side::left, Side::right}) {
    gutters_.emplace(side, Gutter(side, box_));
  }
}

void ViewBlock::addBalloon(const std::string& item, const std::vector<Point2>& anchors) {
  if (anchors.empty()) return;
  const auto room = [&](Point2 p) {
    double nearest = std::numeric_limits<double>::infinity();
    for (const Balloon& b : balloons_) {
      nearest = std::min({nearest, distance(p, b.anchor), 1.5 * std::fabs(p.x - b.anchor.x)});
    }
    return std::min(nearest, kLeadersApart);
  };
  balloons_.push_back({item, *std::ranges::max_element(anchors, {}, room)});
}

Ink ViewBlock::draw() const {
  Ink ink = ink_;
  const std::vector<Reach> taken = drawBalloons(ink);
  drawName(ink, taken);
  drawMarks(ink);
  for (const auto& [side, gutter] : gutters_) gutter.draw(ink);
  return ink;
}

/// How far from the balloons' side a leader ends.
double ViewBlock::depthOf(const Balloon& b) const {
  return balloonSide_ == Side::top ? box_.max.y - b.anchor.y : b.anchor.y - box_.min.y;
}

/// The balloons to draw: not those whose leader would cross the view where an equal item is nearer.
std::vector<ViewBlock::Balloon> ViewBlock::neededBalloons() const {
  constexpr double kLong = 25;
  std::vector<Balloon> needed;
  for (const Balloon& b : balloons_) {
    const bool nearer = std::ranges::any_of(balloons_, [&](const Balloon& other) {
      return other.item == b.item && depthOf(other) < depthOf(b) - 1;
    });
    if (depthOf(b) <= kLong || !nearer) needed.push_back(b);
  }
  return needed;
}

/// In the order of their places. Where leaders end above each other, the nearest end has the middle
/// place and the deeper ones lie on either side, so that no leader passes through another's end.
std::vector<ViewBlock::Balloon> ViewBlock::balloonsInOrder() const {
  std::vector<Balloon> sorted = neededBalloons();
  std::ranges::stable_sort(sorted, {}, [](const Balloon& b) { return b.anchor.x; });
  for (auto first = sorted.begin(); first != sorted.end();) {
    constexpr double kOneColumn = 2;
    const auto last = std::find_if(first, sorted.end(), [&](const Balloon& b) {
      return b.anchor.x > first->anchor.x + kOneColumn;
    });
    std::stable_sort(first, last,
                     [&](const Balloon& a, const Balloon& b) { return depthOf(a) < depthOf(b); });
    std::deque<Balloon> column;
    for (auto b = first; b != last; ++b) {
      if (column.size() % 2 == 0) {
        column.push_front(*b);
      } else {
        column.push_back(*b);
      }
    }
    first = std::ranges::copy(column, first).out;
  }
  return sorted;
}

std::vector<ViewBlock::Reach> ViewBlock::drawBalloons(Ink& ink) const {
  const std::vector<Balloon> sorted = balloonsInOrder();
  std::vector<double> wanted;
  wanted.reserve(sorted.size());
  for (const Balloon& b : sorted) wanted.push_back(b.anchor.x);
  const std::vector<double> places = spread(wanted, kBalloonPitch);
  const bool top = balloonSide_ == Side::top;
  const double y =
      top ? box_.max.y + kBalloonAway + kBalloonRadius : box_.min.y - kBalloonAway - kBalloonRadius;
  std::vector<Reach> taken;
  for (std::size_t i = 0; i < sorted.size(); ++i) {
    exporting::addBalloon(ink, {places[i], y}, sorted[i].item, sorted[i].anchor);
    taken.push_back({std::min(places[i], sorted[i].anchor.x) - kBalloonRadius - 0.8,
                     std::max(places[i], sorted[i].anchor.x) + kBalloonRadius + 0.8});
  }
  return taken;
}

void ViewBlock::drawName(Ink& ink, const std::vector<Reach>& taken) const {
  if (name_.empty()) return;
  const double width = textWidth(name_, kTextHeight);
  const bool top = balloonSide_ == Side::top;
  const double descent = 0.33 * kTextHeight;
  double left = box_.min.x;
  bool found = false;
  for (double at = box_.min.x; !found && (at + width <= box_.max.x || at == box_.min.x); at += 1) {
    found = std::ranges::none_of(taken,
                                 [&](const Reach& r) { return at < r.high && r.low < at + width; });
    if (found) left = at;
  }
  // Where the balloons leave no room the name goes beyond them.
  const double away = found ? kNameAway : kBalloonAway + 2 * kBalloonRadius + kNameAway;
  const double y = top ? box_.max.y + away + descent : box_.min.y - away - kTextHeight;
  ink.add(
      Text{{left, y}, name_, kTextHeight, TextAnchor::left, 0, TextStyle::regular, Layer::text});
}

void ViewBlock::drawMarks(Ink& ink) const {
  constexpr double kClear = 0.6;
  if (faceSideMark_) {
    // Hangs from the face edge, which is the upper side.
    const double size = std::min(11.0, 0.75 * box_.height());
    const Box2 strip{{box_.min.x + 2, box_.max.y - size - kClear},
                     {box_.max.x - 2, box_.max.y - kClear}};
    const Point2 wanted{box_.min.x + 0.42 * box_.width(), box_.max.y};
    const auto spot = freeSpot(ink, strip, 1.1 * size, strip.height(), wanted);
    const double right = spot.value_or(wanted).x + 0.45 * size;
    addFaceSideMark(ink, {right, box_.max.y}, size);
  }
  if (faceEdgeMark_) {
    // Stands on the face side, which is the lower side of the edge view.
    const double size = std::min(6.0, 0.72 * box_.height());
    const Box2 strip{{box_.min.x + 2, box_.min.y + kClear},
                     {box_.max.x - 2, box_.min.y + size + kClear}};
    const Point2 wanted{box_.min.x + 0.42 * box_.width(), box_.min.y};
    const auto spot = freeSpot(ink, strip, size + 2, strip.height(), wanted);
    addFaceEdgeMark(ink, {spot.value_or(wanted).x, box_.min.y}, size);
  }
  drawGrain(ink);
}

void ViewBlock::drawGrain(Ink& ink) const {
  if (grain_ == Grain::none) return;
  const bool along = grain_ == Grain::along;
  const Point2 wanted{box_.min.x + 0.58 * box_.width(), box_.centre().y};
  for (const double length : {26.0, 20.0, 14.0, 10.0}) {
    constexpr double kThick = 3.4;
    const auto spot =
        freeSpot(ink, box_.grown(-0.8), along ? length : kThick, along ? kThick : length, wanted);
    if (!spot) continue;
    const double half = length / 2 - 0.8;
    const Point2 d = along ? Point2{half, 0} : Point2{0, half};
    addGrainArrow(ink, {spot->x - d.x, spot->y - d.y}, {spot->x + d.x, spot->y + d.y});
    return;
  }
  // No room on the wood: beside it, clear of everything.
  const double x = ink.bounds().min.x - 4;
  const Point2 centre{x, box_.centre().y};
  if (along) {
    addGrainArrow(ink, {centre.x - 14, centre.y}, {centre.x, centre.y});
  } else {
    addGrainArrow(ink, {centre.x, centre.y - 6}, {centre.x, centre.y + 6});
  }
}

}  // namespace dryfit::exporting

#include "joinery/layout/clear_wood.h"

#include <algorithm>
#include <cmath>

namespace dryfit::joinery::cutting {
namespace {

constexpr Size kSlack = 5;  // what rounding may take from a slanted edge

Size floored(double v) {
  return static_cast<Size>(std::floor(v));
}
Size ceiled(double v) {
  return static_cast<Size>(std::ceil(v));
}

bool isRectangle(const std::vector<FlatPoint>& outline) {
  if (outline.size() != 4) return false;
  for (std::size_t i = 0; i < 4; ++i) {
    const FlatPoint &a = outline[i], &b = outline[(i + 1) % 4], &c = outline[(i + 2) % 4];
    const bool level = a.y == b.y && b.x == c.x, upright = a.x == b.x && b.y == c.y;
    if (!level && !upright) return false;
  }
  return true;
}

double areaOf(const std::vector<FlatPoint>& outline) {
  double twice = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const FlatPoint &a = outline[i], &b = outline[(i + 1) % outline.size()];
    twice += a.x * b.y - b.x * a.y;
  }
  return std::abs(twice) / 2;
}

}  // namespace

std::vector<FlatPoint> outlineOf(const StockItem& item) {
  if (!item.outline.empty()) return item.outline;
  return {{0, 0}, {item.length, 0}, {item.length, item.farWidth}, {0, item.nearWidth}};
}

ClearWood::ClearWood(const StockItem& item, const LayoutSettings& settings) {
  const std::vector<FlatPoint> outline = outlineOf(item);
  double lowX = outline[0].x, lowY = outline[0].y, farX = lowX, farY = lowY;
  for (const FlatPoint& p : outline) {
    lowX = std::min(lowX, p.x);
    lowY = std::min(lowY, p.y);
    farX = std::max(farX, p.x);
    farY = std::max(farY, p.y);
  }
  whole_ = {sizeOf(lowX), sizeOf(lowY), roomOf(farX) - sizeOf(lowX), roomOf(farY) - sizeOf(lowY)};
  const bool board = item.form == StockForm::board;
  const Size end = sizeOf(board ? settings.boardEndTrim : settings.sheetTrim);
  edgeTrim_ = sizeOf(board ? settings.boardEdgeTrim : settings.sheetTrim);
  const bool square = isRectangle(outline);
  const Size edge = square ? edgeTrim_ : 0;
  usable_ = {whole_.x + end, whole_.y + edge, whole_.length - 2 * end, whole_.width - 2 * edge};
  areaMost_ = std::max(0.0, usable_.area());
  if (!square) {
    areaMost_ = std::min(areaMost_, areaOf(outline) * kSizesPerMm * kSizesPerMm);
    for (std::size_t i = 0; i < outline.size(); ++i) {
      const FlatPoint &a = outline[i], &b = outline[(i + 1) % outline.size()];
      edges_.push_back(
          {a.x * kSizesPerMm, a.y * kSizesPerMm, b.x * kSizesPerMm, b.y * kSizesPerMm});
      steps_.push_back(sizeOf(a.x));
    }
  }
  for (const Defect& defect : item.defects) {
    const FlatRect& zone = defect.zone;
    const Area area{floored(zone.x * kSizesPerMm), floored(zone.y * kSizesPerMm),
                    ceiled(zone.length * kSizesPerMm) + 1, ceiled(zone.width * kSizesPerMm) + 1};
    defects_.push_back(area);
    steps_.push_back(area.farX());
  }
  std::sort(steps_.begin(), steps_.end());
  steps_.erase(std::unique(steps_.begin(), steps_.end()), steps_.end());
}

bool ClearWood::inside(double x, double y) const {
  bool in = false;
  for (const Edge& e : edges_) {
    if ((e.ax > x) == (e.bx > x)) continue;
    if (e.ay + (x - e.ax) / (e.bx - e.ax) * (e.by - e.ay) > y) in = !in;
  }
  return in;
}

std::vector<std::pair<Size, Size>> ClearWood::clear(Size x0, Size x1) const {
  if (plain()) return {{usable_.y, usable_.farY()}};
  std::vector<std::pair<Size, Size>> blocked;
  const auto from = static_cast<double>(x0), to = static_cast<double>(x1);
  for (const Edge& e : edges_) {
    const double low = std::min(e.ax, e.bx), high = std::max(e.ax, e.bx);
    if (high <= from || low >= to) continue;
    const auto at = [&](double x) {
      return high == low ? e.ay : e.ay + (x - e.ax) / (e.bx - e.ax) * (e.by - e.ay);
    };
    double y0 = at(std::max(low, from)), y1 = at(std::min(high, to));
    if (high == low) y1 = e.by;
    if (y0 > y1) std::swap(y0, y1);
    blocked.emplace_back(floored(y0) + kSlack - edgeTrim_, ceiled(y1) - kSlack + edgeTrim_);
  }
  for (const Area& d : defects_) {
    if (d.x < x1 && d.farX() > x0) blocked.emplace_back(d.y, d.farY());
  }
  std::sort(blocked.begin(), blocked.end());
  std::vector<std::pair<Size, Size>> clear;
  Size low = usable_.y;
  const double middle = (from + to) / 2;
  const auto add = [&](Size a, Size b) {
    if (b <= a) return;
    if (edges_.empty() ||
        inside(middle, static_cast<double>(a) + 0.5 * static_cast<double>(b - a))) {
      clear.emplace_back(a, b);
    }
  };
  for (const auto& [y0, y1] : blocked) {
    add(low, std::min(y0, usable_.farY()));
    low = std::max(low, y1);
  }
  add(low, usable_.farY());
  return clear;
}

std::vector<std::pair<Size, Size>> ClearWood::open(Size x0, Size x1) const {
  Size low = usable_.y, high = usable_.farY();
  if (!edges_.empty()) {
    const auto from = static_cast<double>(x0), to = static_cast<double>(x1);
    double least = 1e300, most = -1e300;
    for (const Edge& e : edges_) {
      if (std::min(e.ax, e.bx) > to || std::max(e.ax, e.bx) < from) continue;
      for (const double x : {std::clamp(from, std::min(e.ax, e.bx), std::max(e.ax, e.bx)),
                             std::clamp(to, std::min(e.ax, e.bx), std::max(e.ax, e.bx))}) {
        const double y = e.ax == e.bx ? e.ay : e.ay + (x - e.ax) / (e.bx - e.ax) * (e.by - e.ay);
        least = std::min({least, y, e.ax == e.bx ? e.by : y});
        most = std::max({most, y, e.ax == e.bx ? e.by : y});
      }
    }
    if (least > most) return {};
    low = std::max(low, floored(least) - 2 * kSlack + edgeTrim_);
    high = std::min(high, ceiled(most) + 2 * kSlack - edgeTrim_);
  }
  std::vector<std::pair<Size, Size>> blocked;
  for (const Area& d : defects_) {
    if (d.x <= x0 && d.farX() >= x1) blocked.emplace_back(d.y, d.farY());
  }
  std::sort(blocked.begin(), blocked.end());
  std::vector<std::pair<Size, Size>> open;
  for (const auto& [y0, y1] : blocked) {
    if (std::min(y0, high) > low) open.emplace_back(low, std::min(y0, high));
    low = std::max(low, y1);
  }
  if (high > low) open.emplace_back(low, high);
  return open;
}

std::vector<Size> ClearWood::turningPoints() const {
  std::vector<Size> points;
  for (const Edge& e : edges_) points.push_back(static_cast<Size>(std::llround(e.ax)));
  for (const Area& d : defects_) {
    points.push_back(d.x);
    points.push_back(d.farX());
  }
  std::sort(points.begin(), points.end());
  points.erase(std::unique(points.begin(), points.end()), points.end());
  return points;
}

Area ClearWood::largestClear(const Area& piece, Size lengthLeast, Size widthLeast) const {
  std::vector<Size> from{std::max(piece.x, usable_.x)}, to{std::min(piece.farX(), usable_.farX())};
  for (const Size step : steps_) {
    if (step > piece.x && step < piece.farX()) {
      from.push_back(step);
      to.push_back(step);
    }
  }
  for (const Area& d : defects_) {
    if (d.x > piece.x && d.x < piece.farX()) to.push_back(d.x);
  }
  Area best;
  for (const Size x0 : from) {
    for (const Size x1 : to) {
      if (x1 - x0 < lengthLeast || x1 <= x0) continue;
      for (auto [y0, y1] : clear(x0, x1)) {
        y0 = std::max(y0, piece.y);
        y1 = std::min(y1, piece.farY());
        const Area area{x0, y0, x1 - x0, y1 - y0};
        if (y1 - y0 >= widthLeast && y1 > y0 && area.area() > best.area()) best = area;
      }
    }
  }
  return best;
}

}  // namespace dryfit::joinery::cutting

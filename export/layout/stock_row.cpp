#include "export/layout/stock_row.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "export/drawing/draughting.h"
#include "export/drawing/text_measure.h"
#include "export/layout/datum_scale.h"

namespace dryfit::exporting {

using joinery::FlatPoint;
using joinery::FlatRect;

namespace {

constexpr double kTouch = 0.6;       ///< mm of wood: a cut that ends this near an edge meets it
constexpr double kScaleStart = 3.5;  ///< from the view to a datum scale

/// The part of an outline on one side of the line x = at.
std::vector<FlatPoint> clipped(const std::vector<FlatPoint>& shape, double at, bool keepGreater) {
  const auto isIn = [&](const FlatPoint& p) { return keepGreater ? p.x >= at : p.x <= at; };
  std::vector<FlatPoint> result;
  for (std::size_t i = 0; i < shape.size(); ++i) {
    const FlatPoint& a = shape[i];
    const FlatPoint& b = shape[(i + 1) % shape.size()];
    if (isIn(a)) result.push_back(a);
    if (isIn(a) != isIn(b)) result.push_back({at, a.y + (b.y - a.y) * (at - a.x) / (b.x - a.x)});
  }
  return result;
}

std::string_view nameOf(joinery::DefectKind kind) {
  switch (kind) {
    case joinery::DefectKind::knot:
      return "knot";
    case joinery::DefectKind::split:
      return "split";
    case joinery::DefectKind::wane:
      return "wane";
    case joinery::DefectKind::sap:
      return "sapwood";
    case joinery::DefectKind::other:
      break;
  }
  return "defect";
}

std::string defectText(const joinery::Defect& defect) {
  const std::string name(nameOf(defect.kind));
  return defect.face == joinery::StockFace::first    ? name + ", first face"
         : defect.face == joinery::StockFace::second ? name + ", second face"
                                                     : name;
}

Box2 textBoxAt(Point2 middle, const std::string& text, TextStyle style = TextStyle::regular) {
  const double half = textWidth(text, kSmallTextHeight, style) / 2;
  return {{middle.x - half, middle.y - kSmallTextHeight / 2 - 0.9},
          {middle.x + half, middle.y + kSmallTextHeight / 2 + 0.1}};
}

void addMiddleText(Ink& ink, Point2 middle, const std::string& text,
                   TextStyle style = TextStyle::regular) {
  ink.add(Text{{middle.x, middle.y - kSmallTextHeight / 2},
               text,
               kSmallTextHeight,
               TextAnchor::middle,
               0,
               style,
               Layer::text});
}

}  // namespace

StockRow::StockRow(const RowContext& context, double from, double to)
    : c_(context), from_(from), to_(to) {
  view_.add(paper(from_, c_.whole.y));
  view_.add(paper(to_, c_.whole.farY()));
}

Point2 StockRow::paper(double x, double y) const {
  return {(x - from_) * c_.scale, (y - c_.whole.y) * c_.scale};
}

Box2 StockRow::box(const FlatRect& rect) const {
  const double low = std::max(rect.x, from_);
  const double high = std::min(rect.farX(), to_);
  if (low >= high) return {};
  return {paper(low, rect.y), paper(high, rect.farY())};
}

bool StockRow::isWhole() const {
  return to_ - from_ >= c_.whole.length - 1e-6;
}

/// True on the row that shows most of the rectangle: on the first of those that show as much.
bool StockRow::mainlyHere(const FlatRect& rect) const {
  const double here = std::min(rect.farX(), to_) - std::max(rect.x, from_);
  const double before = std::max(0.0, from_ - rect.x);
  const double after = std::max(0.0, rect.farX() - to_);
  return here > before + 1e-6 && here >= after - 1e-6;
}

Ink StockRow::draw(StockView& counts) {
  drawOutline();
  drawDefects();
  if (c_.steps.empty()) drawTrimLine();
  drawCuts();
  drawParts(counts);
  drawOffcuts();
  drawCallouts();
  drawScales();
  drawHead();
  return std::move(ink_);
}

void StockRow::drawOutline() {
  const auto shape = clipped(clipped(c_.job.itemOf(c_.one).shape(), from_, true), to_, false);
  const auto onBreak = [&](const FlatPoint& a, const FlatPoint& b) {
    const auto at = [&](double x) {
      return std::fabs(a.x - x) < 1e-6 && std::fabs(b.x - x) < 1e-6;
    };
    return (from_ > c_.whole.x + 1e-6 && at(from_)) || (to_ < c_.whole.farX() - 1e-6 && at(to_));
  };
  for (std::size_t i = 0; i < shape.size(); ++i) {
    const FlatPoint& a = shape[i];
    const FlatPoint& b = shape[(i + 1) % shape.size()];
    if (a == b || onBreak(a, b)) continue;
    addLine(ink_, paper(a.x, a.y), paper(b.x, b.y), LineClass::visible, Layer::outline);
  }
  if (from_ > c_.whole.x + 1e-6) drawBreak(from_);
  if (to_ < c_.whole.farX() - 1e-6) drawBreak(to_);
}

/// A line with a zigzag: the board goes on.
void StockRow::drawBreak(double x) {
  const Point2 low = paper(x, c_.whole.y);
  const Point2 high = paper(x, c_.whole.farY());
  const double middle = (low.y + high.y) / 2;
  ink_.add(Stroke{{{low.x, low.y - 1.5},
                   {low.x, middle - 1.2},
                   {low.x - 1, middle - 0.5},
                   {low.x + 1, middle + 0.5},
                   {low.x, middle + 1.2},
                   {low.x, high.y + 1.5}},
                  false,
                  LineClass::dimension,
                  Layer::outline});
}

/// True where a piece reaches one side of the whole, or what has been trimmed off there.
bool StockRow::meets(Side side, const FlatRect& piece) const {
  const joinery::LayoutSettings& s = c_.job.layout.settings;
  const bool sheet = c_.job.itemOf(c_.one).form == joinery::StockForm::sheet;
  const bool isEnd = side == Side::left || side == Side::right;
  const double reach = kTouch + c_.job.kerfIn(c_.one) +
                       (sheet   ? s.sheetTrim
                        : isEnd ? s.boardEndTrim
                                : s.boardEdgeTrim);
  switch (side) {
    case Side::left:
      return piece.x <= c_.whole.x + reach;
    case Side::right:
      return piece.farX() >= c_.whole.farX() - reach;
    case Side::bottom:
      return piece.y <= c_.whole.y + reach;
    case Side::top:
      return piece.farY() >= c_.whole.farY() - reach;
  }
  return false;
}

/// What a router leaves round the edges. Where cuts are given, they trim.
void StockRow::drawTrimLine() {
  const joinery::LayoutSettings& s = c_.job.layout.settings;
  if (c_.job.itemOf(c_.one).form != joinery::StockForm::sheet || s.sheetTrim <= 0) return;
  const Box2 inner = box({c_.whole.x + s.sheetTrim, c_.whole.y + s.sheetTrim,
                          c_.whole.length - 2 * s.sheetTrim, c_.whole.width - 2 * s.sheetTrim});
  if (inner.empty()) return;
  ink_.add(Stroke{{inner.min, {inner.max.x, inner.min.y}, inner.max, {inner.min.x, inner.max.y}},
                  true,
                  LineClass::hidden,
                  Layer::hidden});
}

void StockRow::drawCuts() {
  const double kerf = c_.job.kerfIn(c_.one);
  for (const CutStep& step : c_.steps) {
    FlatRect line = step.piece;
    if (step.across) {
      line.x = step.at + kerf / 2;
      line.length = 0;
      if (line.x < from_ || line.x > to_) continue;
    } else {
      line.y = step.at + kerf / 2;
      line.width = 0;
      if (line.farX() <= from_ || line.x >= to_) continue;
    }
    const Box2 on{paper(std::max(line.x, from_), line.y),
                  paper(std::min(line.farX(), to_), line.farY())};
    addLine(ink_, on.min, on.max, LineClass::centre, Layer::centre);
    if (step.across || mainlyHere(step.piece)) drawCutNumber(step, on);
  }
}

/// The number in a circle: past the edge that the cut runs to, or else on the cut.
void StockRow::drawCutNumber(const CutStep& step, const Box2& line) {
  const std::string text = std::to_string(step.number);
  const double r = std::max(2.1, textWidth(text, kSmallTextHeight, TextStyle::bold) / 2 + 0.5);
  const double lift = r + 0.7;
  std::vector<Point2> places;
  if (step.across) {
    if (meets(Side::top, step.piece)) places.push_back({line.max.x, view_.max.y + lift});
    if (meets(Side::bottom, step.piece)) places.push_back({line.min.x, view_.min.y - lift});
  } else if (meets(Side::right, step.piece) && to_ >= c_.whole.farX() - 1e-6) {
    places.push_back({view_.max.x + lift, line.max.y});
  }
  const std::size_t outside = places.size();
  // Beside the cut, so that no line runs through the number.
  const Point2 aside = step.across ? Point2{r + 0.25, 0} : Point2{0, r + 0.25};
  for (const double share : {0.5, 0.3, 0.7, 0.15, 0.85, 0.4, 0.6, 0.05, 0.95}) {
    const Point2 on{line.min.x + (line.max.x - line.min.x) * share,
                    line.min.y + (line.max.y - line.min.y) * share};
    places.push_back({on.x + aside.x, on.y + aside.y});
    places.push_back({on.x - aside.x, on.y - aside.y});
  }
  const auto circleBox = [&](Point2 p) { return Box2{{p.x - r, p.y - r}, {p.x + r, p.y + r}}; };
  auto place =
      std::ranges::find_if(places, [&](Point2 p) { return room_.isFree(circleBox(p).grown(0.1)); });
  Point2 at = places.front();
  bool leads = false;
  if (place != places.end()) {
    at = *place;
    if (static_cast<std::size_t>(place - places.begin()) < outside) {
      // Over what is trimmed off, to the circle.
      const Point2 end = step.across && at.y < view_.min.y ? line.min : line.max;
      const Point2 edge{std::min(at.x, view_.max.x + 0.7),
                        std::clamp(at.y, view_.min.y - 0.7, view_.max.y + 0.7)};
      addLine(ink_, end, edge);
    }
  } else {
    const auto found = room_.spot(view_.grown(8), 2 * r + 0.2, 2 * r + 0.2, line.centre());
    if (found) at = *found;
    leads = found.has_value();
  }
  room_.take(circleBox(at));
  above_ = std::max(above_, at.y + r - view_.max.y);
  below_ = std::max(below_, view_.min.y - (at.y - r));
  ink_.add(Arc{at, r, 0, 360, LineClass::mark, Layer::dimensions});
  addMiddleText(ink_, at, text, TextStyle::bold);
  if (!leads) return;
  const Point2 to = line.centre();
  const double away = std::hypot(to.x - at.x, to.y - at.y);
  if (away <= r) return;
  addLine(ink_, {at.x + (to.x - at.x) * r / away, at.y + (to.y - at.y) * r / away}, to);
}

void StockRow::drawDefects() {
  for (const joinery::Defect& defect : c_.job.itemOf(c_.one).defects) {
    const Box2 zone = box(defect.zone);
    if (zone.empty()) continue;
    const std::string text = defectText(defect);
    const double width = textWidth(text, kSmallTextHeight) + 1;
    Box2 hole;
    if (mainlyHere(defect.zone)) {
      if (const auto at =
              room_.spot(zone.grown(-0.3), width, kSmallTextHeight + 1.4, zone.centre())) {
        addMiddleText(ink_, {at->x, at->y + 0.2}, text);
        hole = textBoxAt({at->x, at->y + 0.2}, text).grown(0.4);
      } else {
        callouts_.push_back({text, zone.centre()});
      }
    }
    room_.take(zone);
    addHatching(ink_, zone, hole);
    ink_.add(Stroke{{zone.min, {zone.max.x, zone.min.y}, zone.max, {zone.min.x, zone.max.y}},
                    true,
                    LineClass::dimension,
                    Layer::outline});
  }
}

void StockRow::drawOffcuts() {
  for (const FlatRect& offcut : c_.one.offcuts) {
    const Box2 zone = box(offcut).grown(-0.4);
    if (zone.empty()) continue;
    ink_.add(Stroke{{zone.min, {zone.max.x, zone.min.y}, zone.max, {zone.min.x, zone.max.y}},
                    true,
                    LineClass::hidden,
                    Layer::hidden});
    if (!mainlyHere(offcut)) continue;
    const std::string size = c_.job.size(offcut.length, offcut.width);
    if (!putLines({"offcut", size}, zone) && !putLines({"offcut " + size}, zone) &&
        !putLines({"offcut"}, zone)) {
      callouts_.push_back({"offcut", zone.centre()});
    }
  }
}

/// From the datum edge and the near end to every cut that meets an edge of the view.
void StockRow::drawScales() {
  const bool first = from_ <= c_.whole.x + 1e-6;
  DatumScale below{Side::bottom, view_, below_ + kScaleStart, std::nullopt, {}};
  DatumScale above{Side::top, view_, above_ + kScaleStart, std::nullopt, {}};
  DatumScale left{Side::left, view_, kScaleStart + 2.5, std::nullopt, {}};
  for (const CutStep& step : c_.steps) {
    if (step.at < 1e-6) continue;
    if (step.across) {
      if (step.at < from_ - 1e-6 || step.at > to_ + 1e-6) continue;
      const DatumMark mark{paper(step.at, 0).x, c_.job.length(step.at)};
      if (meets(Side::bottom, step.piece)) {
        below.marks.push_back(mark);
      } else if (meets(Side::top, step.piece)) {
        above.marks.push_back(mark);
      }
    } else if (first && meets(Side::left, step.piece)) {
      left.marks.push_back({paper(0, step.at).y, c_.job.length(step.at)});
    }
  }
  if (to_ >= c_.whole.farX() - 1e-6) {
    below.marks.push_back({paper(c_.whole.farX(), 0).x, c_.job.length(c_.whole.farX())});
  }
  if (first) {
    left.marks.push_back({paper(0, c_.whole.farY()).y, c_.job.length(c_.whole.farY())});
    below.origin = above.origin = view_.min.x;
    left.origin = view_.min.y;
  }
  below.draw(ink_);
  above.draw(ink_);
  left.draw(ink_);
}

/// Which stretch this row shows, where there are several.
void StockRow::drawHead() {
  if (isWhole()) return;
  ink_.add(Text{{view_.min.x, ink_.bounds().max.y + 2},
                fmt::format("{} to {} from the near end", c_.job.length(from_ - c_.whole.x),
                            c_.job.length(to_ - c_.whole.x)),
                kSmallTextHeight,
                TextAnchor::left,
                0,
                TextStyle::regular,
                Layer::text});
}

}  // namespace dryfit::exporting

#include "export/drawing/sheet.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "export/drawing/text_measure.h"

namespace dryfit::exporting {
namespace {

// Lengths of dashes, gaps and dots in line widths (12, 3 and 0.5 of them) after ISO 128-2, for the
// narrow line of 0.25 mm.
constexpr std::array kDashed{3.0, 0.75};
constexpr std::array kChain{6.0, 0.75, 0.125, 0.75};

Point2 onCircle(Point2 centre, double radius, double degrees) {
  const double a = degrees * std::numbers::pi / 180;
  return {centre.x + radius * std::cos(a), centre.y + radius * std::sin(a)};
}

Box2 boundsOfPoints(const std::vector<Point2>& points, double halfWidth) {
  Box2 box;
  for (const Point2& p : points) box.add(p);
  return box.grown(halfWidth);
}

Box2 boundsOfArc(const Arc& arc) {
  Box2 box;
  box.add(onCircle(arc.centre, arc.radius, arc.from));
  box.add(onCircle(arc.centre, arc.radius, arc.to));
  for (double quarter = std::ceil(arc.from / 90) * 90; quarter <= arc.to; quarter += 90) {
    box.add(onCircle(arc.centre, arc.radius, quarter));
  }
  return box.grown(styleOf(arc.line).width / 2);
}

struct Mover {
  double dx, dy;
  void shift(Point2& p) const { p = {p.x + dx, p.y + dy}; }
  void operator()(Stroke& s) const {
    for (Point2& p : s.points) shift(p);
  }
  void operator()(Arc& a) const { shift(a.centre); }
  void operator()(Fill& f) const {
    for (Point2& p : f.points) shift(p);
  }
  void operator()(Text& t) const { shift(t.at); }
};

}  // namespace

LineStyle styleOf(LineClass line) {
  switch (line) {
    case LineClass::visible:
      return {0.5, {}};
    case LineClass::hidden:
      return {0.25, kDashed};
    case LineClass::centre:
      return {0.25, kChain};
    case LineClass::dimension:
      return {0.25, {}};
    case LineClass::mark:
      return {0.35, {}};
    case LineClass::frame:
      return {0.7, {}};
  }
  return {};
}

std::string_view nameOf(LineClass line) {
  switch (line) {
    case LineClass::visible:
      return "visible";
    case LineClass::hidden:
      return "hidden";
    case LineClass::centre:
      return "centre";
    case LineClass::dimension:
      return "dimension";
    case LineClass::mark:
      return "mark";
    case LineClass::frame:
      return "frame";
  }
  return "";
}

std::string_view nameOf(Layer layer) {
  switch (layer) {
    case Layer::frame:
      return "frame";
    case Layer::titleBlock:
      return "title-block";
    case Layer::outline:
      return "outline";
    case Layer::hidden:
      return "hidden";
    case Layer::centre:
      return "centre";
    case Layer::hatching:
      return "hatching";
    case Layer::dimensions:
      return "dimensions";
    case Layer::text:
      return "text";
    case Layer::table:
      return "table";
  }
  return "";
}

void Box2::add(Point2 p) {
  min = {std::min(min.x, p.x), std::min(min.y, p.y)};
  max = {std::max(max.x, p.x), std::max(max.y, p.y)};
}

void Box2::add(const Box2& b) {
  if (b.empty()) return;
  add(b.min);
  add(b.max);
}

Box2 Box2::grown(double d) const {
  if (empty()) return *this;
  return {{min.x - d, min.y - d}, {max.x + d, max.y + d}};
}

Box2 Box2::moved(double dx, double dy) const {
  if (empty()) return *this;
  return {{min.x + dx, min.y + dy}, {max.x + dx, max.y + dy}};
}

bool Box2::overlaps(const Box2& b) const {
  return min.x < b.max.x && b.min.x < max.x && min.y < b.max.y && b.min.y < max.y;
}

bool Box2::contains(const Box2& b, double slack) const {
  return b.min.x >= min.x - slack && b.max.x <= max.x + slack && b.min.y >= min.y - slack &&
         b.max.y <= max.y + slack;
}

void Ink::move(double dx, double dy) {
  for (Mark& mark : marks) std::visit(Mover{dx, dy}, mark);
}

Box2 boundsOf(const Mark& mark) {
  if (const auto* stroke = std::get_if<Stroke>(&mark)) {
    return boundsOfPoints(stroke->points, styleOf(stroke->line).width / 2);
  }
  if (const auto* arc = std::get_if<Arc>(&mark)) return boundsOfArc(*arc);
  if (const auto* fill = std::get_if<Fill>(&mark)) return boundsOfPoints(fill->points, 0);
  return textBox(std::get<Text>(mark));
}

Box2 Ink::bounds() const {
  Box2 box;
  for (const Mark& mark : marks) box.add(boundsOf(mark));
  return box;
}

Box2 Sheet::drawingSpace() const {
  return {{kFilingMargin, kMargin}, {width - kMargin, height - kMargin}};
}

std::span<const SheetFormat> sheetFormats() {
  static constexpr std::array kFormats{SheetFormat{"A4", 297, 210}, SheetFormat{"A3", 420, 297},
                                       SheetFormat{"A2", 594, 420}, SheetFormat{"A1", 841, 594},
                                       SheetFormat{"A0", 1189, 841}};
  return kFormats;
}

Sheet sideBySide(const std::vector<Sheet>& sheets) {
  Sheet all = sheets.front();
  for (std::size_t i = 1; i < sheets.size(); ++i) {
    Ink ink = sheets[i].ink;
    ink.move(all.width, 0);
    all.ink.add(ink);
    all.width += sheets[i].width;
    all.height = std::max(all.height, sheets[i].height);
  }
  return all;
}

Sheet makeSheet(const SheetFormat& format) {
  Sheet sheet;
  sheet.format = format.name;
  sheet.width = format.width;
  sheet.height = format.height;
  const Box2 space = sheet.drawingSpace();
  const auto frameLine = [&](std::vector<Point2> points, bool closed) {
    sheet.ink.add(Stroke{std::move(points), closed, LineClass::frame, Layer::frame});
  };
  frameLine({space.min, {space.max.x, space.min.y}, space.max, {space.min.x, space.max.y}}, true);
  // Centring marks at the middles of the trimmed sheet's sides, for filming and folding.
  const Point2 middle{format.width / 2, format.height / 2};
  constexpr double kEdge = 5;
  frameLine({{kEdge, middle.y}, {space.min.x, middle.y}}, false);
  frameLine({{space.max.x, middle.y}, {format.width - kEdge, middle.y}}, false);
  frameLine({{middle.x, kEdge}, {middle.x, space.min.y}}, false);
  frameLine({{middle.x, space.max.y}, {middle.x, format.height - kEdge}}, false);
  return sheet;
}

}  // namespace dryfit::exporting

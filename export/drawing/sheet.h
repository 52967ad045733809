#pragma once

#include <array>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "kernel/geometry.h"

namespace dryfit::exporting {

/// A point on paper, in mm from the lower left corner of the sheet, y upward.
using kernel::Point2;

/// Line types after ISO 128-2 (widths for A4 and A3, group 0.5: wide 0.5, narrow 0.25).
enum class LineClass {
  visible,    ///< 01.2 continuous wide: edges that are seen
  hidden,     ///< 02.1 dashed narrow: edges that are not seen
  centre,     ///< 04.1 long-dashed dotted narrow: axes
  dimension,  ///< 01.1 continuous narrow: dimension, extension and leader lines, hatching, tables
  mark,       ///< continuous, between the two: marks written on the wood, grain arrow
  frame,      ///< continuous 0.7: drawing frame and outline of the title block
};

/// How a line class looks.
struct LineStyle {
  double width = 0.25;             ///< mm
  std::span<const double> dashes;  ///< mm on, off, on, ...; empty for a continuous line
};
[[nodiscard]] LineStyle styleOf(LineClass line);
/// "visible", "hidden", ...
[[nodiscard]] std::string_view nameOf(LineClass line);

/// What a mark on the sheet belongs to. Each is one layer of an exchange file.
enum class Layer { frame, titleBlock, outline, hidden, centre, hatching, dimensions, text, table };
inline constexpr std::array kLayers{Layer::frame,      Layer::titleBlock, Layer::hatching,
                                    Layer::hidden,     Layer::outline,    Layer::centre,
                                    Layer::dimensions, Layer::text,       Layer::table};
/// The layer's name in files: "outline", "title-block", ...
[[nodiscard]] std::string_view nameOf(Layer layer);

/// A line through two or more points.
struct Stroke {
  std::vector<Point2> points;
  bool closed = false;
  LineClass line = LineClass::visible;
  Layer layer = Layer::outline;
  friend bool operator==(const Stroke&, const Stroke&) = default;
};

/// An arc, counter-clockwise from `from` to `to` in degrees; 0 to 360 is a whole circle.
struct Arc {
  Point2 centre;
  double radius = 0;
  double from = 0, to = 360;
  LineClass line = LineClass::visible;
  Layer layer = Layer::outline;
  friend bool operator==(const Arc&, const Arc&) = default;
};

/// A filled polygon: arrowheads and dots.
struct Fill {
  std::vector<Point2> points;
  Layer layer = Layer::dimensions;
  friend bool operator==(const Fill&, const Fill&) = default;
};

enum class TextAnchor { left, middle, right };
enum class TextStyle { regular, bold };

/// One line of text. `at` is on the base line, at the left end, middle or right end of the text.
struct Text {
  Point2 at;
  std::string text;     ///< UTF-8
  double height = 3.5;  ///< of capital letters, mm (ISO 3098: 2.5, 3.5, 5, 7)
  TextAnchor anchor = TextAnchor::left;
  double rotation = 0;  ///< degrees counter-clockwise
  TextStyle style = TextStyle::regular;
  Layer layer = Layer::text;
  friend bool operator==(const Text&, const Text&) = default;
};

using Mark = std::variant<Stroke, Arc, Fill, Text>;

/// An upright rectangle on paper, mm. Empty until something is added.
struct Box2 {
  Point2 min{1e30, 1e30}, max{-1e30, -1e30};
  [[nodiscard]] bool empty() const { return min.x > max.x || min.y > max.y; }
  [[nodiscard]] double width() const { return empty() ? 0 : max.x - min.x; }
  [[nodiscard]] double height() const { return empty() ? 0 : max.y - min.y; }
  [[nodiscard]] Point2 centre() const { return {(min.x + max.x) / 2, (min.y + max.y) / 2}; }
  void add(Point2 p);
  void add(const Box2& b);
  [[nodiscard]] Box2 grown(double d) const;
  [[nodiscard]] Box2 moved(double dx, double dy) const;
  /// True where the two share more than an edge.
  [[nodiscard]] bool overlaps(const Box2& b) const;
  [[nodiscard]] bool contains(const Box2& b, double slack = 0) const;
};

/// A set of marks that can be moved as one.
struct Ink {
  std::vector<Mark> marks;

  void add(Mark mark) { marks.push_back(std::move(mark)); }
  void add(const Ink& ink) { marks.insert(marks.end(), ink.marks.begin(), ink.marks.end()); }
  void move(double dx, double dy);
  /// Box round all marks, text and line width included.
  [[nodiscard]] Box2 bounds() const;
};

/// Box round one mark, line width included.
[[nodiscard]] Box2 boundsOf(const Mark& mark);

/// A sheet of drawing, ready to be written.
struct Sheet {
  std::string title;   ///< for the file's metadata
  std::string format;  ///< "A4", "A3", ...
  double width = 297, height = 210;
  Ink ink;

  /// The space inside the frame.
  [[nodiscard]] Box2 drawingSpace() const;
};

/// A trimmed sheet size of ISO 5457, long side across.
struct SheetFormat {
  std::string_view name;
  double width = 0, height = 0;
};
/// A4, A3, A2, A1, A0.
[[nodiscard]] std::span<const SheetFormat> sheetFormats();

/// Frame margins of ISO 5457, mm: filing edge at the left, and the three others.
inline constexpr double kFilingMargin = 20;
inline constexpr double kMargin = 10;

/// Sheets side by side, to be looked at as one. At least one.
[[nodiscard]] Sheet sideBySide(const std::vector<Sheet>& sheets);

/// An empty sheet with its frame and centring marks.
[[nodiscard]] Sheet makeSheet(const SheetFormat& format);

}  // namespace dryfit::exporting

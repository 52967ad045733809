#include "export/layout/labels.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <string>
#include <system_error>

#include "export/drawing/draughting.h"
#include "export/drawing/text_measure.h"

namespace dryfit::exporting {

using joinery::PlacedBlank;
using joinery::StockLayout;

namespace {

constexpr double kPageWidth = 210, kPageHeight = 297;  ///< A4 upright
constexpr int kColumnsMost = 4, kRowsMost = 10;
constexpr double kInset = 4.5;  ///< inside a label; most printers leave as much at the paper's edge
constexpr double kLinePitch = 3.9;
constexpr double kPictureWidth = 15, kPictureHeight = 9;

/// A label's cell on the page, its size to the lower half millimetre and the grid in the middle.
Box2 cellOf(const LabelGrid& grid, int index) {
  const double width = std::floor(kPageWidth / grid.columns * 2) / 2;
  const double height = std::floor(kPageHeight / grid.rows * 2) / 2;
  const double left = (kPageWidth - width * grid.columns) / 2 + width * (index % grid.columns);
  const int row = index / grid.columns;
  const double top = kPageHeight - (kPageHeight - height * grid.rows) / 2 - height * row;
  return {{left, top - height}, {left + width, top}};
}

/// `text` on one line of `width`, shortened where it is longer.
std::string shortened(const std::string& text, double width, double height, TextStyle style) {
  if (textWidth(text, height, style) <= width) return text;
  return wrapText(text, width - textWidth("…", height, style), height, style).front() + "…";
}

class LabelPen {
 public:
  LabelPen(Ink& ink, const Box2& cell) : ink_(ink), room_(cell.grown(-kInset)) {
    // Low labels keep all lines and a thinner margin.
    const double wanted = 5 + 5 * kLinePitch;
    const double missing = std::max(0.0, wanted - room_.height());
    room_.min.y -= missing / 2;
    room_.max.y += missing / 2;
    y_ = room_.max.y - kTextHeight;
    pitch_ = std::clamp((room_.height() - kTextHeight - 0.9) / 5, kLinePitch, 4.8);
  }

  [[nodiscard]] double besidePicture() const { return room_.width() - kPictureWidth - 1.5; }

  void head(const std::string& text) {
    const double height = textWidth(text, kTextHeight, TextStyle::bold) <= room_.width()
                              ? kTextHeight
                              : kSmallTextHeight;
    write(shortened(text, room_.width(), height, TextStyle::bold), height, TextStyle::bold);
    y_ -= pitch_ + 0.3;
  }
  /// `beside`: the line shares its height with the picture at the right.
  void line(const std::string& text, bool beside) {
    const double width = beside ? besidePicture() : room_.width();
    write(shortened(text, width, kSmallTextHeight, TextStyle::regular), kSmallTextHeight,
          TextStyle::regular);
    y_ -= pitch_;
  }
  /// The part as it lies with its length level: grain, and the face side mark at the face edge.
  void picture(const joinery::Blank& blank, const BlankFacts& facts) {
    const Box2 box{{room_.max.x - kPictureWidth, room_.max.y - kTextHeight - 2 - kPictureHeight},
                   {room_.max.x, room_.max.y - kTextHeight - 2}};
    ink_.add(Stroke{{box.min, {box.max.x, box.min.y}, box.max, {box.min.x, box.max.y}},
                    true,
                    LineClass::mark,
                    Layer::outline});
    const Point2 c{box.min.x + 5, box.centre().y};
    if (blank.grain == joinery::Grain::length)
      addGrainArrow(ink_, {c.x - 4, c.y}, {c.x + 3.5, c.y});
    if (blank.grain == joinery::Grain::width)
      addGrainArrow(ink_, {c.x, c.y - 3.5}, {c.x, c.y + 3.5});
    if (facts.faceEdgeAbove) faceMark(box, *facts.faceEdgeAbove);
  }

 private:
  void write(const std::string& text, double height, TextStyle style) {
    if (text.empty()) return;
    ink_.add(Text{{room_.min.x, y_}, text, height, TextAnchor::left, 0, style, Layer::text});
  }
  void faceMark(const Box2& box, bool above) {
    Ink mark;
    addFaceSideMark(mark, {0, 0}, 4.5);
    const Point2 at{box.max.x - (above ? 1.4 : 4.6), above ? box.max.y : box.min.y};
    for (Mark& one : mark.marks) {
      auto* stroke = std::get_if<Stroke>(&one);
      if (stroke == nullptr) continue;
      for (Point2& p : stroke->points) {
        p = above ? Point2{at.x + p.x, at.y + p.y} : Point2{at.x - p.x, at.y - p.y};
      }
      ink_.add(*stroke);
    }
  }

  Ink& ink_;
  Box2 room_;
  double y_ = 0, pitch_ = kLinePitch;
};

void drawLabel(Ink& ink, const Box2& cell, const LayoutJob& job, const StockLayout& one,
               const PlacedBlank& placed) {
  const joinery::Blank& blank = job.blankOf(placed.blank);
  const BlankFacts& facts = job.factsOf(placed.blank);
  LabelPen pen(ink, cell);
  pen.head(job.markOf(placed.blank) + "  " + facts.label);
  const std::string faces =
      facts.faceSide.empty() ? "" : fmt::format("face {}, edge {}", facts.faceSide, facts.faceEdge);
  const auto share = wrapText(facts.share, pen.besidePicture(), kSmallTextHeight);
  pen.line(facts.share.empty() ? job.piece : share[0], true);
  pen.line(share.size() > 1 ? share[1] : faces, true);
  pen.line("Rough " + job.roughSizeOf(placed.blank), false);
  const auto& f = facts.finished;
  pen.line(f[0] > 0
               ? (facts.share.empty() ? "Finished " : "Whole part ") + job.size(f[0], f[1], f[2])
               : "",
           false);
  pen.line(fmt::format("{}, from {}{}", blank.material, job.nameOfStock(one),
                       facts.share.empty() ? "" : "; " + job.piece),
           false);
  pen.picture(blank, facts);
}

/// Thin lines to cut along, once each.
void drawCutLines(Ink& ink, const LabelGrid& grid) {
  const Box2 first = cellOf(grid, 0);
  const Box2 last = cellOf(grid, grid.columns * grid.rows - 1);
  const auto line = [&](Point2 a, Point2 b) {
    addLine(ink, a, b, LineClass::dimension, Layer::frame);
  };
  for (int i = 0; i <= grid.columns; ++i) {
    const double x = first.min.x + first.width() * i;
    if (x > 0.5 && x < kPageWidth - 0.5) line({x, last.min.y}, {x, first.max.y});
  }
  for (int i = 0; i <= grid.rows; ++i) {
    const double y = first.max.y - first.height() * i;
    if (y > 1 && y < kPageHeight - 1) line({first.min.x, y}, {last.max.x, y});
  }
}

Sheet emptyPage(const LayoutJob& job, const LabelGrid& grid) {
  Sheet sheet;
  sheet.title = "Labels of " + job.piece;
  sheet.format = "A4";
  sheet.width = kPageWidth;
  sheet.height = kPageHeight;
  drawCutLines(sheet.ink, grid);
  return sheet;
}

/// A whole number from 1 on, in digits alone and without a leading zero.
std::optional<int> countFrom(std::string_view digits) {
  int count = 0;
  const char* end = digits.data() + digits.size();
  const auto [stop, error] = std::from_chars(digits.data(), end, count);
  const bool whole = error == std::errc{} && stop == end && count > 0 && digits.front() != '0';
  return whole ? std::optional(count) : std::nullopt;
}

}  // namespace

std::optional<LabelGrid> labelGridNamed(std::string_view text) {
  const std::size_t x = text.find('x');
  if (x == std::string_view::npos) return std::nullopt;
  const auto columns = countFrom(text.substr(0, x));
  const auto rows = countFrom(text.substr(x + 1));
  if (!columns || !rows) return std::nullopt;
  const LabelGrid grid{*columns, *rows};
  if (grid.columns > kColumnsMost || grid.rows > kRowsMost) return std::nullopt;
  return grid;
}

std::vector<Sheet> labelSheets(const LayoutJob& job, const LabelGrid& grid) {
  std::vector<Sheet> sheets;
  const int onPage = grid.columns * grid.rows;
  int next = 0;
  for (const StockLayout& one : job.layout.stock) {
    for (const PlacedBlank& placed : one.blanks) {
      if (next % onPage == 0) sheets.push_back(emptyPage(job, grid));
      drawLabel(sheets.back().ink, cellOf(grid, next % onPage), job, one, placed);
      ++next;
    }
  }
  return sheets;
}

}  // namespace dryfit::exporting

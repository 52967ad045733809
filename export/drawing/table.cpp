#include "export/drawing/table.h"

#include <algorithm>

#include "export/drawing/draughting.h"
#include "export/drawing/text_measure.h"
#include "kernel/tolerance.h"

namespace dryfit::exporting {
namespace {

constexpr double kPadding = 1.5;
constexpr double kLinePitch = 4.2;

/// Texts of one row, broken into lines, with the height they need.
struct Row {
  std::vector<std::vector<std::string>> cells;
  std::vector<TextStyle> styles;
  double height = 0;
};

Row makeRow(const std::vector<TableColumn>& columns, const std::vector<std::string>& texts,
            bool head, double padding) {
  Row row;
  std::size_t most = 1;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    row.styles.push_back(head ? TextStyle::bold : columns[i].style);
    row.cells.push_back(
        wrapText(texts[i], columns[i].width - 2 * kPadding, kSmallTextHeight, row.styles.back()));
    most = std::max(most, row.cells.back().size());
  }
  row.height = static_cast<double>(most) * kLinePitch + padding;
  return row;
}

void drawRow(Ink& ink, const std::vector<TableColumn>& columns, const Row& row, double top,
             double padding) {
  double left = 0;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const TableColumn& column = columns[i];
    const double x = column.anchor == TextAnchor::left     ? left + kPadding
                     : column.anchor == TextAnchor::middle ? left + column.width / 2
                                                           : left + column.width - kPadding;
    double y = top - padding / 2 - kSmallTextHeight - 0.5;
    for (const std::string& line : row.cells[i]) {
      if (!line.empty()) {
        ink.add(
            Text{{x, y}, line, kSmallTextHeight, column.anchor, 0, row.styles[i], Layer::table});
      }
      y -= kLinePitch;
    }
    left += column.width;
  }
}

}  // namespace

Ink drawTable(const std::vector<TableColumn>& columns,
              const std::vector<std::vector<std::string>>& cells, double padding) {
  std::vector<std::string> heads;
  double width = 0;
  for (const TableColumn& column : columns) {
    heads.push_back(column.head);
    width += column.width;
  }
  std::vector<Row> rows{makeRow(columns, heads, true, padding)};
  for (const auto& texts : cells) rows.push_back(makeRow(columns, texts, false, padding));
  double height = 0;
  for (const Row& row : rows) height += row.height;

  Ink ink;
  const auto rule = [&](Point2 a, Point2 b, LineClass line) {
    addLine(ink, a, b, line, Layer::table);
  };
  double top = height;
  for (const Row& row : rows) {
    drawRow(ink, columns, row, top, padding);
    top -= row.height;
    if (top > kernel::kOnPaper) {
      rule({0, top}, {width, top}, &row == &rows.front() ? LineClass::mark : LineClass::dimension);
    }
  }
  double left = 0;
  for (std::size_t i = 0; i + 1 < columns.size(); ++i) {
    left += columns[i].width;
    rule({left, 0}, {left, height}, LineClass::dimension);
  }
  ink.add(Stroke{
      {{0, 0}, {width, 0}, {width, height}, {0, height}}, true, LineClass::mark, Layer::table});
  return ink;
}

}  // namespace dryfit::exporting

#include "export/layout/page_flow.h"

#include <algorithm>

#include "export/drawing/draughting.h"
#include "export/drawing/text_measure.h"

namespace dryfit::exporting {
namespace {

constexpr double kInside = 3;  ///< from the frame
constexpr double kColumnsApart = 4;
constexpr double kBlocksApart = 5;
constexpr double kHeadingHeight = 4.8;
constexpr double kLinePitch = 4.2;

Ink drawParagraphs(const FlowBlock& block, std::size_t from, std::size_t to, double width) {
  Ink ink;
  double y = 0;
  for (std::size_t i = from; i < to; ++i) {
    for (const std::string& line : wrapText(block.rows[i].front(), width, kSmallTextHeight)) {
      y -= kLinePitch;
      ink.add(Text{
          {0, y}, line, kSmallTextHeight, TextAnchor::left, 0, TextStyle::regular, Layer::text});
    }
    y -= 0.8;
  }
  return ink;
}

}  // namespace

void widen(FlowBlock& block, std::size_t column, double width) {
  for (const TableColumn& c : block.columns) width -= c.width;
  block.columns[column].width += std::max(0.0, width);
}

PageFlow::PageFlow(const Box2& space, int columns, double titleHeight, const Box2& view) {
  const Box2 room = space.grown(-kInside);
  width_ = (room.width() - kColumnsApart * (columns - 1)) / columns;
  const double titleLeft = space.max.x - 180;
  for (int i = 0; i < columns; ++i) {
    Column column;
    column.left = room.min.x + i * (width_ + kColumnsApart);
    const double right = column.left + width_;
    const bool overTitle = right > titleLeft - kColumnsApart + 1e-6;
    column.bottom = overTitle ? space.min.y + titleHeight + kInside : room.min.y;
    const bool underView =
        !view.empty() && column.left < view.max.x + kColumnsApart && right > view.min.x;
    column.top = underView ? view.min.y - kBlocksApart : room.max.y;
    columns_.push_back(column);
  }
}

/// The block's rows from `from` to `to` with its top left corner at (0, 0).
Ink PageFlow::draw(const FlowBlock& block, std::size_t from, std::size_t to) const {
  Ink ink;
  if (block.columns.empty()) {
    ink = drawParagraphs(block, from, to, width_);
  } else {
    const std::vector<std::vector<std::string>> rows(
        block.rows.begin() + static_cast<std::ptrdiff_t>(from),
        block.rows.begin() + static_cast<std::ptrdiff_t>(to));
    ink = drawTable(block.columns, rows);
    const Box2 bounds = ink.bounds();
    ink.move(-bounds.min.x, -bounds.max.y);
  }
  if (block.heading.empty()) return ink;
  ink.move(0, -kHeadingHeight);
  ink.add(Text{{0, -kSmallTextHeight - 0.6},
               from == 0 ? block.heading : block.heading + ", continued",
               kSmallTextHeight,
               TextAnchor::left,
               0,
               TextStyle::bold,
               Layer::text});
  return ink;
}

std::size_t PageFlow::put(const FlowBlock& block, std::size_t first) {
  while (first < block.rows.size() && at_ < columns_.size()) {
    Column& column = columns_[at_];
    const double room = column.top - column.bottom;
    const auto fits = [&](std::size_t to) {
      return -draw(block, first, to).bounds().min.y <= room;
    };
    // The most rows that fit, between `low` that do and `high` that do not.
    std::size_t low = first;
    std::size_t high = block.rows.size() + 1;
    while (high - low > 1) {
      const std::size_t middle = low + (high - low) / 2;
      (fits(middle) ? low : high) = middle;
    }
    if (low == first) {
      ++at_;
      continue;
    }
    Ink ink = draw(block, first, low);
    ink.move(column.left, column.top);
    column.top = ink.bounds().min.y - kBlocksApart;
    ink_.add(ink);
    first = low;
  }
  return first;
}

}  // namespace dryfit::exporting

#pragma once

#include <string>
#include <vector>

#include "export/drawing/sheet.h"
#include "export/drawing/table.h"

namespace dryfit::exporting {

/// A table or, without columns, a paragraph a row, under a heading.
struct FlowBlock {
  std::string heading;  ///< may be empty
  std::vector<TableColumn> columns;
  std::vector<std::vector<std::string>> rows;
};

/// The column that takes up what room a page's column has beyond the others' widths.
void widen(FlowBlock& block, std::size_t column, double width);

/// The free columns of a page, filled from the top, the left one first. Blocks break between rows
/// and go on in the next column under their heading.
class PageFlow {
 public:
  /// `view`: what the page shows already; may be empty. The title block stands in the lower right
  /// corner. `titleHeight`, mm.
  PageFlow(const Box2& space, int columns, double titleHeight, const Box2& view);

  [[nodiscard]] double columnWidth() const { return width_; }
  /// Puts down as many rows from `first` on as there is room for; gives the index of the first
  /// that is left over.
  [[nodiscard]] std::size_t put(const FlowBlock& block, std::size_t first);
  [[nodiscard]] Ink take() { return std::move(ink_); }

 private:
  struct Column {
    double left = 0, top = 0, bottom = 0;
  };
  [[nodiscard]] Ink draw(const FlowBlock& block, std::size_t from, std::size_t to) const;

  double width_ = 0;
  std::vector<Column> columns_;
  std::size_t at_ = 0;
  Ink ink_;
};

}  // namespace dryfit::exporting

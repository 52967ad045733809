#pragma once

#include <string>
#include <vector>

#include "export/drawing/sheet.h"

namespace dryfit::exporting {

/// A column of a table.
struct TableColumn {
  std::string head;
  double width = 20;  ///< mm
  TextAnchor anchor = TextAnchor::left;
  TextStyle style = TextStyle::regular;  ///< of the cells under the head
};

/// A ruled table with its head on top; texts wrap inside their cells. Its lower left corner is at
/// (0, 0). `cells` holds rows from the top, each with a text a column; `padding` is what a row is
/// higher than its lines, mm.
[[nodiscard]] Ink drawTable(const std::vector<TableColumn>& columns,
                            const std::vector<std::vector<std::string>>& cells,
                            double padding = 1.8);

}  // namespace dryfit::exporting

#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "export/drawing/sheet.h"
#include "export/layout/layout_job.h"

namespace dryfit::exporting {

/// How many labels stand side by side and one under the other on a sheet of A4, upright.
struct LabelGrid {
  int columns = 3, rows = 8;  ///< 70 × 37 mm each
};
/// "3x8". None where it is not two counts, or the labels would be too small for their texts: at
/// most 4 by 10.
[[nodiscard]] std::optional<LabelGrid> labelGridNamed(std::string_view text);

/// A label a placed blank, in the order in which boards and sheets are cut.
[[nodiscard]] std::vector<Sheet> labelSheets(const LayoutJob& job, const LabelGrid& grid);

}  // namespace dryfit::exporting

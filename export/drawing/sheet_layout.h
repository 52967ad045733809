#pragma once

#include <vector>

#include "export/drawing/sheet.h"

namespace dryfit::exporting {

/// What is to be arranged on one sheet. Each block moves as one.
struct SheetContents {
  Ink views;                 ///< the views in projection: top of the sheet
  std::vector<Ink> details;  ///< beside and below the views
  Ink table;                 ///< may be empty
  Ink titleBlock;            ///< lower right corner
  Ink notes;                 ///< may be empty
};

/// True, and the sheet filled, where all blocks find room clear of each other; else the sheet stays
/// as it is.
[[nodiscard]] bool arrange(const SheetContents& contents, Sheet& sheet);

}  // namespace dryfit::exporting

#pragma once

#include <vector>

#include "export/drawing/sheet.h"

namespace dryfit::exporting {

/// What is to be arranged on one sheet. Each block moves as one.
struct SheetContents {
  std::vector<Ink> views;    ///< may be empty; they move together; top of the sheet
  std::vector<Ink> details;  ///< one block each
  Ink table;                 ///< may be empty
  Ink titleBlock;            ///< lower right corner
  Ink notes;                 ///< may be empty; above the title block
  Ink banner = {};           ///< may be empty; at the top, over all else
};

/// Where details may stand: side by side in the strip under the views, or wherever there is room.
enum class DetailRoom { row, anywhere };

/// True, and the sheet filled, where all blocks find room clear of each other; else the sheet stays
/// as it is.
[[nodiscard]] bool arrange(const SheetContents& contents, DetailRoom room, Sheet& sheet);

}  // namespace dryfit::exporting

#pragma once

#include <string>
#include <vector>

#include "export/drawing/title_block.h"
#include "export/layout/page_flow.h"

namespace dryfit::exporting {

/// Height of the title block of ISO 7200 as drawn here, mm.
inline constexpr double kTitleBlockHeight = 40;

/// A page whose title block waits for the number of pages.
struct DraftPage {
  std::string name;  ///< of its file, without the ending
  Sheet sheet;
  TitleBlock title;
};

/// Pages of `format` that show `view` at the top of the first and `blocks` in their free columns.
/// The view's lower left corner is at (0, 0); it may be empty. Pages are named after `name`.
[[nodiscard]] std::vector<DraftPage> flowPages(const std::string& name, const SheetFormat& format,
                                               int columns, const Ink& view,
                                               const std::vector<FlowBlock>& blocks,
                                               const TitleBlock& title);

/// Puts the title blocks in and counts the pages.
void finishPages(std::vector<DraftPage>& pages);

}  // namespace dryfit::exporting

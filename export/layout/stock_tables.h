#pragma once

#include <vector>

#include "export/layout/cut_plan.h"
#include "export/layout/layout_job.h"
#include "export/layout/page_flow.h"

namespace dryfit::exporting {

/// What stands beside the drawing of a board or sheet: notes, its parts, the cuts in their order or
/// the places of the parts where it is nested freely. `width`: of a page's column, mm.
[[nodiscard]] std::vector<FlowBlock> stockTables(const LayoutJob& job, const Pattern& pattern,
                                                 const std::vector<CutStep>& steps, double width);

/// What the summary says of the whole layout. `width` as above.
[[nodiscard]] std::vector<FlowBlock> summaryTables(const LayoutJob& job,
                                                   const std::vector<Pattern>& patterns,
                                                   double width);

/// "no. 1, 2 and 5".
[[nodiscard]] std::string copiesText(const LayoutJob& job, const Pattern& pattern);

}  // namespace dryfit::exporting

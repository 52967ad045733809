#pragma once

#include <vector>

#include "export/drawing/drawing_set.h"
#include "export/layout/layout_job.h"
#include "joinery/base/progress.h"

namespace dryfit::exporting {

/// All drawings of a layout: "00-summary", then one a board or sheet, those that are cut alike
/// drawn once. Long tables go on on further sheets ("01-board-2").
/// `progress` is asked before each. Error: cancelled.
[[nodiscard]] Result<std::vector<NamedSheet>> layoutSheets(const LayoutJob& job,
                                                           const joinery::Progress& progress = {});

}  // namespace dryfit::exporting

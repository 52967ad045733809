#pragma once

#include <string>

#include "export/layout/layout_job.h"

namespace dryfit::exporting {

/// The boards and sheets that were not cut, and the offcuts worth keeping. An offcut bears its
/// share by area of what the whole cost.
[[nodiscard]] joinery::StockList remainingStock(const LayoutJob& job);

/// A stock list as its file ("dryfit-stock", models/README.md), ready to be read for the next job.
[[nodiscard]] std::string stockText(const joinery::StockList& list);

}  // namespace dryfit::exporting

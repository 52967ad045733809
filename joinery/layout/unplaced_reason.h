#pragma once

#include "joinery/layout/layout.h"

namespace dryfit::joinery::cutting {

/// Why a blank found no place, and what to buy for it.
[[nodiscard]] Unplaced unplacedBecause(const std::vector<Blank>& blanks, int blank,
                                       const StockList& stock, const LayoutSettings& settings);

}  // namespace dryfit::joinery::cutting

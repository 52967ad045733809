#pragma once

#include "joinery/layout/pattern.h"

namespace dryfit::joinery::cutting {

/// A pattern as it is handed to the maker: cuts in the order of cutting (all of one direction
/// before the piece is turned), offcuts, and places in mm. `blanksOf` gives the blanks for each
/// item's copies, by slot, and is called once for every copy in the pattern.
[[nodiscard]] StockLayout stockLayoutOf(
    const Job& job, const Pattern& pattern, int copy,
    const std::vector<std::vector<const std::vector<int>*>>& blanks);

}  // namespace dryfit::joinery::cutting

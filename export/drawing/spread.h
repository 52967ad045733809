#pragma once

#include <limits>
#include <vector>

namespace dryfit::exporting {

/// Places for labels along a line: as near as possible (least squares) to where each wants to be,
/// in the same order, and at least `gap` apart. `wanted` is ascending. Where the labels do not fit
/// between `low` and `high` they run over `high`.
[[nodiscard]] std::vector<double> spread(const std::vector<double>& wanted, double gap,
                                         double low = -std::numeric_limits<double>::infinity(),
                                         double high = std::numeric_limits<double>::infinity());

}  // namespace dryfit::exporting

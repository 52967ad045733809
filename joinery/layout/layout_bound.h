#pragma once

#include <string>
#include <vector>

#include "joinery/layout/layout_job.h"

namespace dryfit::joinery::cutting {

struct CostBound {
  double value = 0;
  std::string by;
};

/// A lower bound of the cost of stock for so many of each item: from the items' areas, and from
/// each of the given sets of prices, with the most that a piece of stock can be worth at them when
/// its defects, turns and copy limits are left out. `search`: of the weighed cost, not the
/// reported.
[[nodiscard]] CostBound costBound(const Job& job, const std::vector<int>& counts,
                                  const std::vector<std::vector<double>>& prices, bool search);

}  // namespace dryfit::joinery::cutting

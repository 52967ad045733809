#pragma once

#include <functional>

#include "joinery/layout/layout_plan.h"

namespace dryfit::joinery::cutting {

struct FoundPlan {
  Plan plan;
  std::vector<std::vector<double>> prices;  ///< of the items, for bounds
  double bars = 0;  ///< bound of the weighed cost where boards were cut as bars; else 0
  bool finished = true;
};

/// The best plan for one material: many plans built and rebuilt on all cores, then the best choice
/// among all their patterns, whose prices guide the next round. `progress` is asked for the share
/// done; false stops the search with the best so far.
[[nodiscard]] FoundPlan findPlan(const Job& job, const std::function<bool(double)>& progress);

}  // namespace dryfit::joinery::cutting

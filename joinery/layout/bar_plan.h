#pragma once

#include <functional>
#include <optional>

#include "joinery/layout/layout_plan.h"

namespace dryfit::joinery::cutting {

struct BarPlan {
  Plan plan;
  double bound = 0;  ///< of the cost as the search weighs it; 0 where not everything is placed
};

/// The plan of a job whose stock is only one part wide, cut to length as bars are: column
/// generation, exact where it proves out. Nothing when the job is not of that kind. `goOn`
/// returning false stops it with the best so far.
[[nodiscard]] std::optional<BarPlan> planOfBars(const Job& job,
                                                const std::vector<double>& missingWeights,
                                                const std::function<bool()>& goOn);

}  // namespace dryfit::joinery::cutting

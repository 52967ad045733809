#pragma once

#include <memory>
#include <vector>

#include "joinery/layout/pattern.h"

namespace dryfit::joinery::cutting {

using SharedPattern = std::shared_ptr<const Pattern>;

/// Which pieces of stock are cut how, for one material.
struct Plan {
  std::vector<SharedPattern> patterns;
  std::vector<int> missing;  ///< of each item
  double cost = 0;           ///< as the search weighs it, without what is missing
  double weight = 0;         ///< with it
  int cuts = 0;

  [[nodiscard]] bool complete() const;
};

/// What leaving one copy of each item out weighs: more than any piece of stock.
[[nodiscard]] std::vector<double> missingWeights(const Job& job);

/// The plan of these patterns.
[[nodiscard]] Plan planOf(const Job& job, std::vector<SharedPattern> patterns,
                          const std::vector<double>& missingWeights);

/// Least weight first, then fewest cuts.
[[nodiscard]] bool better(const Plan& a, const Plan& b);

}  // namespace dryfit::joinery::cutting

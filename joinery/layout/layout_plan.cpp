#include "joinery/layout/layout_plan.h"

#include <algorithm>
#include <cmath>

namespace dryfit::joinery::cutting {

bool Plan::complete() const {
  return std::all_of(missing.begin(), missing.end(), [](int m) { return m == 0; });
}

std::vector<double> missingWeights(const Job& job) {
  double dearest = 1e-3, largest = 1;
  for (const Bin& bin : job.bins) dearest = std::max(dearest, bin.search);
  for (const Item& item : job.items) largest = std::max(largest, item.area);
  std::vector<double> weights;
  for (const Item& item : job.items) {
    weights.push_back(10 * dearest * (1 + item.area / largest) *
                      static_cast<double>(item.copies.front().size()));
  }
  return weights;
}

Plan planOf(const Job& job, std::vector<SharedPattern> patterns,
            const std::vector<double>& missingWeights) {
  Plan plan;
  for (const Item& item : job.items) plan.missing.push_back(item.demand());
  for (const SharedPattern& pattern : patterns) {
    plan.cost += job.bins[static_cast<std::size_t>(pattern->bin)].search;
    plan.cuts += pattern->cuts();
    for (const auto& [item, copies] : pattern->counts) {
      plan.missing[static_cast<std::size_t>(item)] -= copies;
    }
  }
  plan.patterns = std::move(patterns);
  plan.weight = plan.cost;
  for (std::size_t i = 0; i < plan.missing.size(); ++i) {
    plan.weight += plan.missing[i] * missingWeights[i];
  }
  return plan;
}

bool better(const Plan& a, const Plan& b) {
  const double slack = 1e-9 * (1 + std::abs(b.weight));
  if (a.weight < b.weight - slack) return true;
  return a.weight <= b.weight + slack && a.cuts < b.cuts;
}

}  // namespace dryfit::joinery::cutting

#pragma once

#include <random>
#include <vector>

#include "joinery/layout/layout_plan.h"

namespace dryfit::joinery::cutting {

/// Builds plans one piece of stock after another, and builds parts of them anew. Everything random
/// comes from the seed.
class PlanBuilder {
 public:
  PlanBuilder(const Job& job, const std::vector<double>& missingWeights, std::uint64_t seed);

  /// One plan, without chance: largest first.
  Plan first();
  /// Works on from `start` until `workMost` is used up; `values` is what an item is held to be
  /// worth. Every pattern met is left in `met`.
  Plan improve(const Plan& start, std::vector<double> values, std::int64_t workMost);

  [[nodiscard]] std::vector<SharedPattern>& met() { return met_; }

 private:
  struct Rest {
    std::vector<int> left, bins;  ///< copies of items and of pieces of stock
  };
  [[nodiscard]] Rest everything() const;
  std::vector<SharedPattern> build(Rest rest, const std::vector<double>& values, bool chance);
  SharedPattern nextPattern(const Rest& rest, const std::vector<double>& values, bool chance);
  SharedPattern bestFill(int bin, const Rest& rest, const std::vector<double>& values, bool chance);
  [[nodiscard]] std::vector<int> order(const Rest& rest, const std::vector<double>& values, int key,
                                       double noise);
  [[nodiscard]] double worth(const Pattern& pattern, const std::vector<double>& values) const;
  Plan rebuildSome(const Plan& plan, const std::vector<double>& values);
  void correct(const std::vector<SharedPattern>& patterns, std::vector<double>& values) const;
  double chanceBelow(double most) {
    return most * static_cast<double>(random_() >> 11) * 0x1.0p-53;
  }
  int choice(int count) { return static_cast<int>(random_() % static_cast<std::uint64_t>(count)); }

  const Job& job_;
  const std::vector<double>& missingWeights_;
  std::mt19937_64 random_;
  std::int64_t work_ = 0;
  std::vector<SharedPattern> met_;
};

}  // namespace dryfit::joinery::cutting

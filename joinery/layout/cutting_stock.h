#pragma once

#include <functional>
#include <span>
#include <vector>

#include "joinery/layout/scaled_size.h"

namespace dryfit::joinery::cutting {

/// Bars of one length. Kerf is already added once.
struct BarKind {
  Size room = 0;
  double cost = 1;
  int count = 1;
};

/// Equal pieces wanted. Kerf is already added.
struct BarItem {
  Size size = 0;
  int demand = 1;
};

struct BarPattern {
  int kind = 0;
  std::vector<int> counts;  ///< of each item
};

struct BarAnswer {
  std::vector<BarPattern> bars;  ///< one entry a bar
  std::vector<int> missing;      ///< of each item
  double cost = 0;               ///< of the bars
  double bound = 0;              ///< no cutting of all items costs less
  bool proved = false;           ///< nor does any cost less than `cost`
};

struct BarSearch {
  int nodesMost = 2'000;         ///< of the whole-number search
  int patternsMost = 20'000;     ///< made for a proof
  std::function<bool()> goOn{};  ///< false: stop with the best so far
};

/// Cuts pieces from bars at least cost: column generation with a knapsack as pricing (P. C. Gilmore
/// and R. E. Gomory, Operations Research 9 (1961) 849-859), then whole numbers over its patterns
/// and, for a proof, over all patterns that a better answer could use.
[[nodiscard]] BarAnswer cutBars(std::span<const BarKind> kinds, std::span<const BarItem> items,
                                const BarSearch& search = {});

}  // namespace dryfit::joinery::cutting

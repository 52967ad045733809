#pragma once

#include <span>
#include <vector>

#include "joinery/layout/guillotine_knapsack.h"

namespace dryfit::joinery::cutting {

/// An item of which only some copies are wanted. Kerf is already added to its sizes.
struct LimitedItem {
  std::vector<std::pair<Size, Size>> poses;  ///< length and width, as it may lie
  int copies = 1;
  double value = 0;  ///< of one copy
};

struct LimitedSearch {
  int turnsMost = 0;          ///< changes of cutting direction; 0: any number
  int piecesMost = 20'000;    ///< how many rectangles may be put together before it gives up proof
  double valueAbove = 0;      ///< only more than this is of use
  int boundPointsMost = 200;  ///< raster points of the bound, a side
};

struct LimitedRect {
  int item = 0, pose = 0;
  Area area;  ///< kerf still in the sizes
};

struct LimitedPattern {
  double value = 0;  ///< 0: nothing above `valueAbove` was found
  std::vector<LimitedRect> rects;
  bool exact = false;  ///< nothing is worth more (within the turns as counted below)
};

/// The most that a rectangle can be worth with through cuts and limited copies: rectangles are put
/// together bottom up, those first that may still become worth most; how much more a rectangle in
/// the corner can become is bounded by GuillotineKnapsack. Exact when it ends before its limit.
///
/// Source of the method: K. V. Viswanathan and A. Bagchi, Operations Research 41 (1993) 768-776.
[[nodiscard]] LimitedPattern limitedKnapsack(std::span<const LimitedItem> items, Size length,
                                             Size width, const LimitedSearch& search = {});

}  // namespace dryfit::joinery::cutting

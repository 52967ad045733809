#pragma once

#include <cstddef>
#include <vector>

#include "kernel/recipe.h"

namespace dryfit::kernel {

/// A recipe in which no two round tools of one step go on in each other.
struct JoinedRecipe {
  Recipe recipe;
  /// numbers[s][t]: which tool of the given step `s`, counted from 0, `steps[s].tools[t]` stands
  /// for, so that a message can name it.
  std::vector<std::vector<std::size_t>> numbers;
};

/// The same part with the round tools that lie on one line, are equally thick and overlap or touch
/// made one, to within `kSnap`: the first of them grows, the others go. Tools of different steps
/// are made one as well where both add or both remove, and no step between does anything to the
/// wood that the later one reaches.
///
/// The geometry library needs this: it takes two round faces that coincide in part for different
/// ones, and gives an invalid solid.
[[nodiscard]] JoinedRecipe withBarsJoined(const Recipe& recipe);

}  // namespace dryfit::kernel

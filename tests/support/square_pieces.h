#pragma once

#include <random>

#include "kernel/recipe.h"

namespace dryfit::test {

/// A box square to its part, as a tool.
[[nodiscard]] kernel::Tool block(kernel::Point3 low, kernel::Point3 high);

/// How much is done to a random part.
struct Amount {
  int steps = 3;  ///< at most; one at least
  int tools = 4;  ///< a step, at most; one at least
};

/// A random part of square work: a blank, then steps of boxes, additions and removals mixed.
///
/// With `grid` true all coordinates are whole numbers from a span of few, so that nearly every two
/// boxes have planes, edges or corners in common; pieces that touch at an edge only do occur.
/// Without, no two coordinates are equal but where a tool is flush with the blank.
[[nodiscard]] kernel::Recipe randomSquareWork(std::mt19937_64& random, bool grid, Amount most = {});

/// Random square work off the grid with up to `holes` round holes along random axes, drilled from
/// random faces, blind or through: some clear of everything, some into edges, cuts and each other.
[[nodiscard]] kernel::Recipe randomBoredWork(std::mt19937_64& random, int holes);

}  // namespace dryfit::test

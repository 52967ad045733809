#pragma once

#include <optional>

#include "kernel/recipe.h"
#include "kernel/solid.h"

namespace dryfit::test {

/// What a part of square work comes to.
struct CellCount {
  double volume = 0;  ///< mm³
  double area = 0;    ///< mm²
  kernel::Topology topology;
};

/// The plainest way to count a square recipe: every cell, every side of a cell, flood filling side
/// by side. Slow, short and without any of the kernel's own working, so that it can be held against
/// it. Nothing where no wood is left or pieces touch along an edge or at a corner only.
/// REQUIRES: recipe.isSquareWork(), coordinates equal or well apart.
[[nodiscard]] std::optional<CellCount> countCells(const kernel::Recipe& recipe);

}  // namespace dryfit::test

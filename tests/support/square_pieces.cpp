#include "tests/support/square_pieces.h"

#include <utility>

namespace dryfit::test {
namespace {

using kernel::Block;
using kernel::Box3;
using kernel::Recipe;
using kernel::Step;
using kernel::Tool;

int whole(std::mt19937_64& random, int low, int high) {
  return std::uniform_int_distribution<int>(low, high)(random);
}
double real(std::mt19937_64& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}

constexpr int kSpan = 6;      // cells a side of the blank on the grid
constexpr double kCell = 7;   // mm
constexpr double kSize = 42;  // mm, the same off the grid

/// A box that may reach past the blank on any side.
Box3 toolOnGrid(std::mt19937_64& random) {
  Box3 box;
  for (int axis = 0; axis < 3; ++axis) {
    const int length = whole(random, 1, 4);
    const int start = whole(random, -1, kSpan + 1 - length);
    box.min.set(axis, start * kCell);
    box.max.set(axis, (start + length) * kCell);
  }
  return box;
}

Box3 toolOffGrid(std::mt19937_64& random) {
  Box3 box;
  for (int axis = 0; axis < 3; ++axis) {
    const double length = real(random, 0.1 * kSize, 0.6 * kSize);
    const double start = real(random, -0.2 * kSize, 1.2 * kSize - length);
    box.min.set(axis, start);
    box.max.set(axis, start + length);
    const int flush = whole(random, 0, 9);
    if (flush == 0 && box.max[axis] > 0.05 * kSize) box.min.set(axis, 0);
    if (flush == 1 && box.min[axis] < 0.95 * kSize) box.max.set(axis, kSize);
  }
  return box;
}

/// A drill that comes from outside the blank, or now and then from inside a cut.
kernel::Cylinder drill(std::mt19937_64& random) {
  const int axis = whole(random, 0, 2);
  const bool up = whole(random, 0, 1) == 0;
  kernel::Cylinder tool;
  tool.axis = {0, 0, 0};
  tool.axis.set(axis, up ? 1 : -1);
  tool.radius = real(random, 0.02 * kSize, 0.08 * kSize);
  for (int i = 0; i < 3; ++i) tool.base.set(i, real(random, 0.05 * kSize, 0.95 * kSize));
  const double start = whole(random, 0, 3) == 0 ? real(random, -5, 15) : -1;
  tool.base.set(axis, up ? start : kSize - start);
  tool.height = whole(random, 0, 3) == 0 ? 1.5 * kSize : real(random, 3, kSize);
  return tool;
}

}  // namespace

Tool block(kernel::Point3 low, kernel::Point3 high) {
  return Block{{low, high}, {}};
}

Recipe randomSquareWork(std::mt19937_64& random, bool grid, Amount most) {
  const double size = grid ? kSpan * kCell : kSize;
  Recipe recipe{block({0, 0, 0}, {size, size, size}), {}};
  for (int steps = whole(random, 1, most.steps); steps > 0; --steps) {
    const bool add = whole(random, 0, 2) == 0;
    Step step{add ? Step::Kind::add : Step::Kind::remove, {}};
    for (int tools = whole(random, 1, most.tools); tools > 0; --tools) {
      step.tools.emplace_back(Block{grid ? toolOnGrid(random) : toolOffGrid(random), {}});
    }
    recipe.steps.push_back(std::move(step));
  }
  return recipe;
}

Recipe randomBoredWork(std::mt19937_64& random, int holes) {
  Recipe recipe = randomSquareWork(random, false, {2, 2});
  Step drilled{Step::Kind::remove, {}};
  for (int left = whole(random, 1, holes); left > 0; --left) {
    drilled.tools.emplace_back(drill(random));
  }
  recipe.steps.push_back(std::move(drilled));
  return recipe;
}

}  // namespace dryfit::test

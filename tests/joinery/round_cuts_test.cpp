// Walls beside round holes by plane geometry, held against the distance between the two bodies that
// the tools take from the part.

#include "joinery/checks/round_cuts.h"

#include <gtest/gtest.h>

#include <array>
#include <random>

#include "kernel/solid.h"
#include "tests/support/random_pieces.h"

namespace dryfit::joinery::checking {
namespace {

using kernel::Box3;
using kernel::Point3;
using kernel::Vec3;

const Box3 kPart{{0, 0, 0}, {60, 40, 30}};

Feature cutBy(kernel::Tool tool) {
  Feature cut;
  cut.tool = std::move(tool);
  return cut;
}

/// Clear of the part's sides, and perhaps out at one end or at both.
Feature randomHole(std::mt19937_64& random, int axis) {
  const auto between = [&](double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random);
  };
  kernel::Cylinder hole;
  hole.radius = between(1, 6);
  for (int i = 0; i < 3; ++i) hole.base.set(i, between(hole.radius, kPart.max[i] - hole.radius));
  const bool up = between(0, 1) < 0.5;
  const double length = kPart.max[axis];
  hole.height = between(5, 1.2 * length);
  const double from = between(-5, length / 2);
  hole.base.set(axis, up ? from : length - from);
  hole.axis = {};
  hole.axis.set(axis, up ? 1 : -1);
  return cutBy(hole);
}

Feature randomBlock(std::mt19937_64& random) {
  Box3 box;
  for (int i = 0; i < 3; ++i) {
    double lo = std::uniform_real_distribution<double>(-5, 0.9 * kPart.max[i])(random);
    const double size = std::uniform_real_distribution<double>(2, 0.5 * kPart.max[i])(random);
    if (lo + size < 1) lo = 0;
    box.min.set(i, lo);
    box.max.set(i, lo + size);
  }
  return cutBy(kernel::Block{box, {}});
}

double distanceWithin(const Feature& a, const Feature& b) {
  const auto taken = [](const Feature& cut) {
    const auto tool = kernel::makeTool(cut.tool);
    return kernel::common(*kernel::makeBox(kPart), std::array{*tool}).value();
  };
  return kernel::distance(taken(a), taken(b)).value();
}

TEST(RoundCuts, WallsAreAsThickAsTheBodiesAreApart) {
  std::mt19937_64 random(test::seed());
  int apart = 0;
  for (int i = 0; i < 12; ++i) {
    SCOPED_TRACE("seed " + std::to_string(test::seed()) + ", pair " + std::to_string(i));
    const int axis = i % 3;
    const Feature hole = randomHole(random, axis);
    const Feature other = i % 2 == 0 ? randomHole(random, axis) : randomBlock(random);
    const auto wall = roundWall(kPart, hole, other);
    ASSERT_TRUE(wall);
    EXPECT_NEAR(*wall, roundWall(kPart, other, hole).value_or(-1), 1e-12);
    EXPECT_NEAR(*wall, distanceWithin(hole, other), 1e-6);
    apart += *wall > 0;
  }
  EXPECT_GT(apart, 1);
}

TEST(RoundCuts, LeavesOtherHolesToTheSolids) {
  const Feature upright = cutBy(kernel::Cylinder{{20, 20, -1}, {0, 0, 1}, 4, 20});
  const Feature across = cutBy(kernel::Cylinder{{-1, 20, 25}, {1, 0, 0}, 4, 20});
  const Feature outAtTheSide = cutBy(kernel::Cylinder{{50, 2, -1}, {0, 0, 1}, 4, 20});
  const Feature leaning = cutBy(kernel::Cylinder{{40, 20, -1}, {3e-5, 0, 1}, 4, 20});
  for (const Feature* other : {&across, &outAtTheSide, &leaning}) {
    EXPECT_FALSE(roundWall(kPart, upright, *other));
    EXPECT_FALSE(roundWall(kPart, *other, upright));
  }
}

}  // namespace
}  // namespace dryfit::joinery::checking

// Square work with round holes is worked out twice here: hole by hole with no Boolean operation,
// and by general Boolean operations.

#include <gtest/gtest.h>

#include <cstdlib>
#include <iostream>
#include <numbers>
#include <string>

#include "kernel/occt_bridge.h"
#include "kernel/recipe.h"
#include "kernel/square_work.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"
#include "tests/support/square_agree.h"
#include "tests/support/square_pieces.h"

namespace dryfit::kernel {
namespace {

using std::numbers::pi;
using test::block;

/// A board 200 x 80 x 20 with holes.
Recipe board(std::vector<Tool> holes) {
  return {block({0, 0, 0}, {200, 80, 20}), {{Step::Kind::remove, std::move(holes)}}};
}
Tool holeFromAbove(double x, double y, double radius, double depth) {
  return Cylinder{{x, y, 20 + 1}, {0, 0, -1}, radius, depth + 1};
}

TEST(BoredWork, ADowelHoleTakesAsMuchWoodAsACylinderHolds) {
  const auto work = arrangeBored(board({holeFromAbove(50, 40, 4, 12)}));
  ASSERT_TRUE(work) << work.error().line();
  EXPECT_NEAR(work->volume, 200 * 80 * 20 - pi * 16 * 12, 1e-6);
  EXPECT_NEAR(work->area, 2 * (200 * 80 + 200 * 20 + 80 * 20) + 2 * pi * 4 * 12, 1e-6);
  EXPECT_EQ(work->topology(), (Topology{1, 1, 8, 15, 10}));
}

TEST(BoredWork, AHoleRightThroughHasNoBottom) {
  const auto work = arrangeBored(board({holeFromAbove(50, 40, 4, 30)}));
  ASSERT_TRUE(work) << work.error().line();
  EXPECT_NEAR(work->volume, 200 * 80 * 20 - pi * 16 * 20, 1e-6);
  EXPECT_EQ(work->topology(), (Topology{1, 1, 7, 15, 10}));
}

TEST(BoredWork, AHoleAsDeepAsTheBoardIsThickGoesThrough) {
  const auto work = arrangeBored(board({holeFromAbove(50, 40, 4, 20)}));
  ASSERT_TRUE(work);
  EXPECT_EQ(work->topology(), (Topology{1, 1, 7, 15, 10}));
}

TEST(BoredWork, IsTheSameBothWays) {
  test::expectBothWaysAgree(
      board({holeFromAbove(50, 40, 4, 12), holeFromAbove(150, 40, 6, 30),
             Cylinder{{-1, 20, 10}, {1, 0, 0}, 4, 25}, Cylinder{{100, 81, 8}, {0, -1, 0}, 3, 40}}));
}

TEST(BoredWork, LeavesHolesThatMeetAnEdgeOrEachOtherToTheGeneralWay) {
  EXPECT_FALSE(arrangeBored(board({holeFromAbove(3, 40, 4, 12)})));  // out at the end
  EXPECT_FALSE(arrangeBored(board({holeFromAbove(4, 40, 4, 12)})));  // touches the end
  EXPECT_FALSE(arrangeBored(board({holeFromAbove(50, 40, 4, 12), holeFromAbove(56, 40, 4, 12)})));
  EXPECT_FALSE(arrangeBored(board({holeFromAbove(50, 40, 4, 19.9995)})));        // a skin below it
  EXPECT_FALSE(arrangeBored(board({Cylinder{{50, 40, 5}, {0, 0, 1}, 4, 10}})));  // a void
  EXPECT_FALSE(arrangeBored(board({Cylinder{{50, 40, 21}, Vec3{0.1, 0, -1}.unit(), 4, 10}})));
  const auto general = build(board({holeFromAbove(3, 40, 4, 12)}));
  EXPECT_TRUE(general);
}

TEST(BoredWork, AHoleThatMissesTheWoodChangesNothing) {
  const auto work = arrangeBored(board({holeFromAbove(250, 40, 4, 12)}));
  ASSERT_TRUE(work);
  EXPECT_TRUE(work->bores.empty());
  EXPECT_DOUBLE_EQ(work->volume, 200 * 80 * 20);
}

TEST(BoredWork, WoodPutOnLaterIsNotBored) {
  Recipe recipe = board({holeFromAbove(50, 40, 4, 12)});
  recipe.steps.push_back({Step::Kind::add, {block({40, 30, 20}, {60, 50, 40})}});
  EXPECT_FALSE(arrangeBored(recipe));
  recipe.steps.back() = {Step::Kind::add, {block({140, 30, 20}, {160, 50, 40})}};
  EXPECT_TRUE(arrangeBored(recipe));
  test::expectBothWaysAgree(recipe);
}

TEST(BoredWork, RandomPartsAreTheSameBothWays) {
  const char* given = std::getenv("DRYFIT_SQUARE_PARTS");
  const int count = given ? std::atoi(given) : test::repetitions(150);
  std::mt19937_64 random(test::seed());
  int bored = 0;
  for (int i = 0; i < count && !HasFailure(); ++i) {
    const Recipe recipe = test::randomBoredWork(random, 4);
    SCOPED_TRACE("seed " + std::to_string(test::seed()) + ", part " + std::to_string(i) + "\n" +
                 test::shown(recipe));
    const auto work = arrangeBored(recipe);
    if (!work || work->bores.empty()) continue;
    ++bored;
    test::expectBothWaysAgree(recipe);
  }
  std::cout << bored << " parts of " << count << " bored and agreed\n";
  EXPECT_GT(bored, 0.2 * count);
}

TEST(BoredWork, SharesWoodWithAnotherPartAsTheGeneralWaySays) {
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < test::repetitions(60); ++i) {
    const Recipe recipe = test::randomBoredWork(random, 3);
    const auto work = arrangeBored(recipe);
    if (!work) continue;
    const Solid bored = *build(recipe);
    const auto general = buildGeneral(recipe);
    ASSERT_TRUE(general);
    const double x = std::uniform_real_distribution<double>(0, 40)(random);
    const Solid mate = *makeBox({{x, 5, 5}, {x + 20, 30, 30}});
    const auto quick = overlap(bored, mate);
    const auto slow = overlap(*general, mate);
    ASSERT_TRUE(quick && slow);
    EXPECT_NEAR(quick->volume, slow->volume, 1e-6) << "seed " << test::seed() << ", part " << i;
  }
}

}  // namespace
}  // namespace dryfit::kernel

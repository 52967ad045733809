#include "kernel/recipe.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>
#include <set>

#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::kernel {
namespace {

using testing::HasSubstr;

Recipe rail() {
  return {Block{{{0, 0, 0}, {400, 60, 22}}, {}},
          {{Step::Kind::add, {Block{{{400, 10, 6}, {430, 50, 16}}, {}}}},
           {Step::Kind::remove,
            {Block{{{-1, -1, 8}, {431, 6, 14}}, {}}, Cylinder{{50, 30, -1}, {0, 0, 1}, 4, 24}}}}};
}

TEST(Recipe, BuildsTheRailItDescribes) {
  const Solid solid = buildGeneral(rail()).value();
  const double expected =
      400.0 * 60 * 22 + 30.0 * 40 * 10 - 400.0 * 6 * 6 - std::numbers::pi * 16 * 22;
  EXPECT_NEAR(solid.volume(), expected, 1e-9 * expected);
  EXPECT_NEAR(build(rail()).value().volume(), expected, 1e-9 * expected);
}

TEST(Recipe, RemovalsThatMissChangeNothing) {
  Recipe recipe = rail();
  const double before = buildGeneral(recipe).value().volume();
  recipe.steps[1].tools.emplace_back(Block{{{1000, 0, 0}, {1010, 10, 10}}, {}});
  recipe.steps[1].tools.emplace_back(Cylinder{{1000, 0, 0}, {0, 0, 1}, 5, 10});
  EXPECT_EQ(buildGeneral(recipe).value().volume(), before);
}

TEST(Recipe, NamesTheStepAndToolThatCannotBe) {
  Recipe recipe = rail();
  recipe.steps[1].tools.emplace_back(Block{{{0, 0, 0}, {10, 10, 0}}, {}});
  const auto result = buildGeneral(recipe);
  ASSERT_FALSE(result);
  EXPECT_EQ(result.error().code, ErrorCode::badDimension);
  EXPECT_EQ(result.error().where, "step 2: tool 3");

  recipe.blank = Cylinder{{}, {0, 0, 1}, -1, 10};
  EXPECT_EQ(buildGeneral(recipe).error().where, "blank");
}

TEST(Recipe, WithEverythingRemovedIsAnError) {
  Recipe recipe = rail();
  recipe.steps.push_back({Step::Kind::remove, {Block{{{-9, -9, -9}, {999, 99, 99}}, {}}}});
  const auto result = buildGeneral(recipe);
  ASSERT_FALSE(result);
  EXPECT_EQ(result.error().code, ErrorCode::emptyResult);
  EXPECT_EQ(result.error().where, "step 3");
}

TEST(Recipe, IsSquareWorkOnlyWhenAllOfItIsPlainBoxes) {
  Recipe recipe = rail();
  EXPECT_FALSE(recipe.isSquareWork());
  recipe.steps[1].tools.pop_back();
  EXPECT_TRUE(recipe.isSquareWork());
  recipe.steps[1].tools.emplace_back(
      Block{{{0, 0, 0}, {1, 1, 1}}, Frame::rotation({}, {0, 0, 1}, Angle::degrees(10))});
  EXPECT_FALSE(recipe.isSquareWork());
  recipe = rail();
  recipe.steps.clear();
  EXPECT_TRUE(recipe.isSquareWork());
}

TEST(ContentKey, IsEqualForEqualRecipesAndKnowsNoSignOfZero) {
  EXPECT_EQ(contentKey(rail()), contentKey(rail()));
  Recipe minus = rail();
  std::get<Block>(minus.blank).box.min = {-0.0, -0.0, -0.0};
  ASSERT_EQ(minus, rail());
  EXPECT_EQ(contentKey(minus), contentKey(rail()));
}

TEST(ContentKey, IsTheSameOnEveryMachineAndDay) {
  // Stored caches may rely on it; it changes only on purpose.
  EXPECT_EQ(contentKey(Recipe{Block{{{0, 0, 0}, {400, 60, 22}}, {}}, {}}), 10953007695140492969U);
}

TEST(ContentKey, DiffersWithEveryNumberKindAndGrouping) {
  std::vector<Recipe> recipes{rail()};
  const auto vary = [&](auto change) {
    recipes.push_back(rail());
    change(recipes.back());
  };
  vary([](Recipe& r) { std::get<Block>(r.blank).box.max.x += 1e-12; });
  vary([](Recipe& r) { std::get<Block>(r.blank).box.max.x = 401; });
  vary([](Recipe& r) { std::get<Block>(r.blank).frame.origin.x = 1; });
  vary([](Recipe& r) { std::get<Cylinder>(r.steps[1].tools[1]).radius = 5; });
  vary([](Recipe& r) { std::get<Cylinder>(r.steps[1].tools[1]).axis = {0, 0, -1}; });
  vary([](Recipe& r) { r.steps[0].kind = Step::Kind::remove; });
  vary([](Recipe& r) { r.steps.pop_back(); });
  vary([](Recipe& r) { r.steps.push_back({}); });
  vary([](Recipe& r) { std::swap(r.steps[0], r.steps[1]); });
  vary([](Recipe& r) { std::swap(r.steps[1].tools[0], r.steps[1].tools[1]); });
  vary([](Recipe& r) { r.steps[1].tools.pop_back(); });
  vary([](Recipe& r) { r.blank = Prism{{}, {{0, 0}, {400, 0}, {0, 60}}, 22}; });
  vary([](Recipe& r) { r.blank = Prism{{}, {{0, 0}, {400, 0}, {0, 60}}, 23}; });
  vary([](Recipe& r) { r.blank = Prism{{}, {{0, 0}, {400, 0}, {0, 60}, {0, 22}}, 22}; });
  std::set<std::uint64_t> keys;
  for (const Recipe& recipe : recipes) keys.insert(contentKey(recipe));
  EXPECT_EQ(keys.size(), recipes.size());
}

TEST(ContentKey, DoesNotCollideOverAHundredThousandNearbyBoxes) {
  std::set<std::uint64_t> keys;
  int count = 0;
  for (int x = 1; x <= 50; ++x) {
    for (int y = 1; y <= 50; ++y) {
      for (int z = 1; z <= 40; ++z, ++count) {
        keys.insert(contentKey({Block{{{0, 0, 0}, {x * 0.5, y * 0.5, z * 0.5}}, {}}, {}}));
      }
    }
  }
  EXPECT_EQ(static_cast<int>(keys.size()), count);
}

TEST(PlacedTool, SquarelyTurnedIsAPlainBoxWithExactCorners) {
  const Block block{{{10, 20, 30}, {40.3, 50.7, 60.1}}, {}};
  Frame turn = Frame::rotation({}, {0, 0, 1}, Angle::degrees(90));
  turn.origin = {1000, 0, 0};
  // (x, y, z) goes to (1000 - y, x, z), to the last bit.
  EXPECT_EQ(std::get<Block>(placed(block, turn)),
            (Block{{{1000 - 50.7, 10, 30}, {1000 - 20.0, 40.3, 60.1}}, {}}));
}

TEST(PlacedTool, TurnedThereAndBackIsPlainAgain) {
  const Block block{{{10, 20, 30}, {40, 50, 60}}, {}};
  const Frame turn = Frame::rotation({5, 5, 5}, {0, 1, 0}, Angle::degrees(30));
  const Tool there = placed(block, turn);
  EXPECT_NE(std::get<Block>(there).frame, Frame{});
  const Block back = std::get<Block>(placed(there, turn.inverse()));
  EXPECT_EQ(back.frame, Frame{});
  EXPECT_NEAR((back.box.min - block.box.min).norm(), 0, 1e-12);
  EXPECT_NEAR((back.box.max - block.box.max).norm(), 0, 1e-12);
}

TEST(PlacedTool, MakesTheSolidThatPlacingTheSolidMakes) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(test::seed());
  const std::vector<Tool> tools{
      Block{{{10, 20, 30}, {40, 50, 60}}, {}},
      Block{{{10, 20, 30}, {40, 50, 60}}, Frame::rotation({}, {1, 0, 0}, Angle::degrees(20))},
      Prism{{}, {{0, 0}, {30, 0}, {0, 40}}, 10}, Cylinder{{1, 2, 3}, {0, 0, 1}, 4, 50}};
  for (const Tool& tool : tools) {
    for (int i = 0; i < 10; ++i) {
      const Frame frame = test::randomFrame(random);
      const Solid a = makeTool(tool).value().placed(frame);
      const Tool moved = placed(tool, frame);
      const Solid b = makeTool(moved).value();
      EXPECT_NEAR(a.volume(), b.volume(), 1e-12 * a.volume());
      EXPECT_NEAR((a.centroid() - b.centroid()).norm(), 0, 1e-9);
      for (const Box3& box : {a.bounds(), boundsOf(moved)}) {
        EXPECT_NEAR((box.min - b.bounds().min).norm(), 0, 2e-6);
        EXPECT_NEAR((box.max - b.bounds().max).norm(), 0, 2e-6);
      }
    }
  }
}

TEST(Recipe, OfRandomPiecesGivesValidSolidsOrANamedError) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(test::seed());
  int built = 0;
  const int count = test::repetitions(100);
  for (int i = 0; i < count; ++i) {
    SCOPED_TRACE(i);
    const auto part = buildGeneral(test::randomPiece(random, {.turned = true, .round = true}));
    if (!part) {
      EXPECT_EQ(part.error().code, ErrorCode::emptyResult) << part.error().line();
      continue;
    }
    ++built;
    EXPECT_TRUE(validate(*part));
  }
  EXPECT_GE(built, count * 9 / 10);
}

}  // namespace
}  // namespace dryfit::kernel

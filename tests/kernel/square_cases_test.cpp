// What can be odd about a part of square work, one case at a time, each worked out both ways.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <limits>

#include "kernel/occt_bridge.h"
#include "kernel/square_work.h"
#include "kernel/tolerance.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"
#include "tests/support/square_agree.h"
#include "tests/support/square_pieces.h"

namespace dryfit::kernel {
namespace {

using test::block;
using test::expectBothWaysAgree;
using test::expectSame;
using testing::HasSubstr;

constexpr auto kAdd = Step::Kind::add;
constexpr auto kRemove = Step::Kind::remove;

Tool board() {
  return block({0, 0, 0}, {60, 40, 20});
}

SquareWork worked(const Recipe& recipe) {
  expectBothWaysAgree(recipe);
  auto work = arrange(recipe);
  EXPECT_TRUE(work) << (work ? "" : work.error().line());
  return work.value_or(SquareWork{});
}

int mostLoops(const SquareWork& work) {
  int most = 0;
  for (const auto& face : work.faces) most = std::max(most, face.lastLoop - face.firstLoop);
  return most;
}

TEST(SquareCase, ABlankIsABox) {
  EXPECT_EQ(worked({board(), {}}).topology(), (Topology{1, 1, 6, 12, 8}));
}

TEST(SquareCase, AThroughMortisePiercesTwoFaces) {
  const SquareWork work = worked({board(), {{kRemove, {block({20, 10, -1}, {40, 30, 21})}}}});
  EXPECT_EQ(work.topology(), (Topology{1, 1, 10, 24, 16}));
  EXPECT_EQ(mostLoops(work), 2);
}

TEST(SquareCase, ABlindMortiseHasABottom) {
  EXPECT_EQ(worked({board(), {{kRemove, {block({20, 10, 8}, {40, 30, 21})}}}}).topology(),
            (Topology{1, 1, 11, 24, 16}));
}

TEST(SquareCase, AFaceHasAsManyHolesAsMortises) {
  const SquareWork work =
      worked({board(),
              {{kRemove,
                {block({5, 5, 10}, {10, 10, 30}), block({15, 5, 9}, {20, 35, 30}),
                 block({30, 10, -5}, {35, 20, 30}), block({40, 10, 8}, {55, 30, 21})}}}});
  EXPECT_EQ(mostLoops(work), 5);
}

TEST(SquareCase, ACutInsideLeavesAVoidWithAShellOfItsOwn) {
  EXPECT_EQ(worked({board(), {{kRemove, {block({20, 10, 5}, {40, 30, 15})}}}}).topology(),
            (Topology{1, 2, 12, 24, 16}));
}

TEST(SquareCase, ALumpMayFloatInAVoidAndHaveAVoidItself) {
  const Recipe recipe{block({0, 0, 0}, {50, 50, 50}),
                      {{kRemove, {block({10, 10, 10}, {40, 40, 40})}},
                       {kAdd, {block({15, 15, 15}, {35, 35, 35})}},
                       {kRemove, {block({20, 20, 20}, {30, 30, 30})}}}};
  EXPECT_EQ(worked(recipe).topology(), (Topology{2, 4, 24, 48, 32}));
}

TEST(SquareCase, EachLumpKeepsItsOwnVoids) {
  const Recipe recipe{block({0, 0, 0}, {100, 20, 20}),
                      {{kRemove,
                        {block({45, -1, -1}, {55, 21, 21}), block({5, 5, 5}, {10, 15, 15}),
                         block({15, 5, 5}, {20, 15, 15}), block({80, 5, 5}, {90, 15, 15})}}}};
  const SquareWork work = worked(recipe);
  EXPECT_EQ(work.topology(), (Topology{2, 5, 30, 60, 40}));
  std::vector<int> shells;
  for (const auto& lump : work.lumps) shells.push_back(lump.lastShell - lump.firstShell);
  std::sort(shells.begin(), shells.end());
  EXPECT_EQ(shells, (std::vector<int>{2, 3}));
}

TEST(SquareCase, AnIslandInAHoleIsAFaceOfItsOwn) {
  // A groove round a field, and the field has a mortise: two faces in the top plane, both holed.
  const Recipe recipe{block({0, 0, 0}, {60, 60, 20}),
                      {{kRemove, {block({10, 10, 10}, {50, 50, 21})}},
                       {kAdd, {block({20, 20, 5}, {40, 40, 20})}},
                       {kRemove, {block({25, 25, 12}, {35, 35, 20})}}}};
  const SquareWork work = worked(recipe);
  const auto inTop = std::count_if(work.faces.begin(), work.faces.end(), [&](const auto& face) {
    return face.axis == 2 && face.looksUp && work.coordinates[2][face.plane] == 20 &&
           face.lastLoop - face.firstLoop == 2;
  });
  EXPECT_EQ(inTop, 2);
}

TEST(SquareCase, TwoPiecesOfOnePlaneThatTouchAtACornerAreTwoFaces) {
  // Steps up and down, crosswise: the quarters at height 20 meet in one point.
  const Recipe recipe{
      block({0, 0, 0}, {20, 20, 20}),
      {{kRemove, {block({10, 0, 10}, {20, 10, 20})}}, {kAdd, {block({0, 10, 20}, {10, 20, 30})}}}};
  const SquareWork work = worked(recipe);
  const auto atTwenty = std::count_if(work.faces.begin(), work.faces.end(), [&](const auto& face) {
    return face.axis == 2 && face.looksUp && work.coordinates[2][face.plane] == 20;
  });
  EXPECT_EQ(atTwenty, 2);
}

TEST(SquareCase, AFaceMayMeetItselfAtACorner) {
  // The same crosswise steps, with the quarters joined round the outside.
  const Recipe recipe{
      block({-20, -20, 0}, {40, 40, 20}),
      {{kRemove, {block({10, 0, 10}, {20, 10, 20})}}, {kAdd, {block({0, 10, 20}, {10, 20, 30})}}}};
  const SquareWork work = worked(recipe);
  EXPECT_EQ(mostLoops(work), 3);
}

TEST(SquareCase, AHoleMayTouchTheEdgeOfItsFaceAtACorner) {
  // A pit and a notch, corner to corner in the top face; under the pit's corner stands no wall, for
  // the wood above the other diagonal holds the two apart.
  const Recipe recipe{block({0, 0, 0}, {40, 40, 20}),
                      {{kRemove, {block({10, 10, 10}, {20, 20, 20})}},
                       {kAdd, {block({20, 20, 20}, {40, 40, 30})}}}};
  const SquareWork work = worked(recipe);
  EXPECT_EQ(work.topology().solids, 1);
}

TEST(SquareCase, TwoEdgesInLineAreTwoWhereOthersMeetThem) {
  // Two planes cross; wood fills one quarter on the left of a corner and three on the right.
  const Recipe recipe{block({0, 0, 0}, {20, 20, 20}),
                      {{kRemove,
                        {block({0, 10, 0}, {10, 20, 20}), block({0, 0, 10}, {10, 20, 20}),
                         block({10, 10, 10}, {20, 20, 20})}}}};
  const SquareWork work = worked(recipe);
  EXPECT_EQ(work.topology().shells, 1);
}

TEST(SquareCase, AdditionsFlushWithTheBlankMakeOneFaceWithIt) {
  EXPECT_EQ(worked({board(), {{kAdd, {block({60, 0, 0}, {90, 40, 20})}}}}).topology(),
            (Topology{1, 1, 6, 12, 8}));
  EXPECT_EQ(worked({board(), {{kAdd, {block({60, 0, 0}, {90, 40, 10})}}}}).topology(),
            (Topology{1, 1, 8, 18, 12}));
}

TEST(SquareCase, WhatIsCutAwayMayBePutBack) {
  const Tool bite = block({20, 10, -1}, {40, 30, 21});
  const Recipe recipe{board(), {{kRemove, {bite}}, {kAdd, {block({20, 10, 0}, {40, 30, 20})}}}};
  EXPECT_EQ(worked(recipe).topology(), (Topology{1, 1, 6, 12, 8}));
}

TEST(SquareCase, AnAdditionApartIsASecondLump) {
  EXPECT_EQ(worked({board(), {{kAdd, {block({70, 0, 0}, {90, 40, 20})}}}}).topology().solids, 2);
}

TEST(SquareCase, CoordinatesCloserThanTheSnapAreOne) {
  const double off = kSnap / 3;
  const Recipe recipe{board(),
                      {{kRemove, {block({20, 10, -1}, {40, 40 - off, 21})}},
                       {kRemove, {block({20, -1, -1}, {30, 10 + off, 21})}}}};
  const auto work = arrange(recipe);
  ASSERT_TRUE(work);
  EXPECT_EQ(work->coordinates[1].size(), 3U);
  EXPECT_EQ(work->topology().solids, 2);
  EXPECT_TRUE(validate(build(recipe).value()));
}

TEST(SquareCase, StepsOfTwiceTheSnapAreStillSteps) {
  const auto work =
      arrange({board(), {{kRemove, {block({20, -1, 20 - 2 * kSnap}, {40, 50, 30})}}}});
  ASSERT_TRUE(work);
  EXPECT_EQ(work->topology().faces, 10);
}

TEST(SquareRefusal, OfPiecesThatTouchAlongAnEdgeGoesTheGeneralWay) {
  const Recipe recipe{
      block({0, 0, 0}, {20, 20, 20}),
      {{kRemove, {block({10, 0, 0}, {20, 10, 20}), block({0, 10, 0}, {10, 20, 20})}}}};
  const auto work = arrange(recipe);
  ASSERT_FALSE(work);
  EXPECT_EQ(work.error().code, ErrorCode::invalidSolid);
  EXPECT_THAT(work.error().what,
              HasSubstr("touch only along an edge or at a corner, at (10, 10, 0)"));
  const auto both = build(recipe);
  const auto general = buildGeneral(recipe);
  ASSERT_EQ(bool(both), bool(general));
  if (both) expectSame(*both, *general);
}

TEST(SquareRefusal, OfPiecesThatTouchAtACornerGoesTheGeneralWay) {
  const Recipe recipe{block({0, 0, 0}, {20, 20, 20}),
                      {{kAdd, {block({20, 20, 20}, {30, 30, 30})}}}};
  ASSERT_FALSE(arrange(recipe));
  const auto both = build(recipe);
  const auto general = buildGeneral(recipe);
  ASSERT_EQ(bool(both), bool(general));
  if (both) expectSame(*both, *general);
}

TEST(SquareRefusal, OfVoidsThatTouchAtACorner) {
  const Recipe recipe{
      block({0, 0, 0}, {40, 40, 40}),
      {{kRemove, {block({10, 10, 10}, {20, 20, 20}), block({20, 20, 20}, {30, 30, 30})}}}};
  ASSERT_FALSE(arrange(recipe));
}

TEST(SquareRefusal, ErrorsAreThoseOfTheGeneralWay) {
  const double none = std::numeric_limits<double>::quiet_NaN();
  const Recipe recipes[] = {
      {board(), {{kRemove, {block({10, 10, 5}, {20, 20, 5})}}}},
      {board(), {{kAdd, {block({10, 10, 5}, {20, none, 15})}}}},
      {board(), {{kRemove, {block({-1, -1, -1}, {99, 99, 99})}}}},
      {board(), {{kRemove, {block({-1, -1, -1}, {99, 99, 99})}}, {kAdd, {board()}}}},
      {board(), {{kRemove, {board()}}, {kAdd, {board()}}}},
      {block({0, 0, 0}, {60, -40, 20}), {}},
      {block({0, 0, 0}, {60, 40, 2 * kLargest}), {}},
  };
  for (const Recipe& recipe : recipes) {
    SCOPED_TRACE(test::shown(recipe));
    const auto both = build(recipe);
    const auto general = buildGeneral(recipe);
    ASSERT_FALSE(both);
    ASSERT_FALSE(general);
    EXPECT_EQ(both.error().line(), general.error().line());
    EXPECT_EQ(both.error().code, general.error().code);
  }
}

TEST(SquareWorkLaw, OrderOfToolsWithinAStepIsFree) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(test::seed());
  int compared = 0;
  const int count = test::repetitions(2000);
  for (int i = 0; i < count; ++i) {
    Recipe recipe = test::randomSquareWork(random, i % 2 == 0, {3, 5});
    const auto before = arrange(recipe);
    for (Step& step : recipe.steps) std::shuffle(step.tools.begin(), step.tools.end(), random);
    const auto after = arrange(recipe);
    ASSERT_EQ(bool(before), bool(after));
    if (!before) continue;
    ++compared;
    EXPECT_EQ(before->topology(), after->topology());
    EXPECT_EQ(before->volume, after->volume);
    EXPECT_EQ(before->coordinates, after->coordinates);
    EXPECT_EQ(before->boxes, after->boxes);
  }
  EXPECT_GT(compared, count / 2);
}

TEST(SquareWorkLaw, CuttingTwiceIsCuttingOnce) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(test::seed());
  for (int i = 0; i < test::repetitions(500); ++i) {
    Recipe recipe = test::randomSquareWork(random, i % 2 == 0, {2, 4});
    const auto once = arrange(recipe);
    recipe.steps.push_back(recipe.steps.back());
    const auto twice = arrange(recipe);
    ASSERT_EQ(bool(once), bool(twice));
    if (once) {
      EXPECT_EQ(once->boxes, twice->boxes);
    }
  }
}

TEST(SquareSolid, KeepsItsMeasuresWhereverItIsPlaced) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(test::seed());
  for (int i = 0; i < test::repetitions(40); ++i) {
    const auto solid = build(test::randomSquareWork(random, false, {2, 2}));
    ASSERT_TRUE(solid);
    const Solid moved = solid->placed(test::randomFrame(random)).placed(test::randomFrame(random));
    EXPECT_EQ(moved.topology(), solid->topology());
    EXPECT_EQ(moved.volume(), solid->volume());
    expectSame(moved, solidFrom(shapeOf(moved)).value());
  }
}

}  // namespace
}  // namespace dryfit::kernel

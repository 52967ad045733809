// Round holes whose ends lie on a face, a hair off it, or on the end of another hole. What the
// library's Boolean operations make of the same recipe is the second opinion where they manage it.

#include <gtest/gtest.h>

#include <numbers>

#include "kernel/recipe.h"
#include "kernel/square_work.h"
#include "tests/support/square_agree.h"
#include "tests/support/square_pieces.h"

namespace dryfit::kernel {
namespace {

using std::numbers::pi;
using test::block;

/// A board 200 x 80 x 20, cut.
Recipe board(std::vector<Tool> cuts) {
  return {block({0, 0, 0}, {200, 80, 20}), {{Step::Kind::remove, std::move(cuts)}}};
}
Tool downTo(double bottom) {
  return Cylinder{{50, 40, 21}, {0, 0, -1}, 4, 21 - bottom};
}
Tool upTo(double top, double radius = 4) {
  return Cylinder{{50, 40, -1}, {0, 0, 1}, radius, top + 1};
}
/// 12 mm deep, with its floor 8 mm above the board's underside.
const Tool kTrench = block({30, 20, 8}, {70, 60, 21});

TEST(BoreEnds, AHoleAsDeepAsTheTrenchItStandsInTakesNoWood) {
  for (const double above : {0.0, 1e-7, 5e-4, 1e-3, 2e-3}) {
    SCOPED_TRACE(above);
    const Recipe recipe = board({kTrench, downTo(8 + above)});
    const auto work = arrangeBored(recipe);
    ASSERT_TRUE(work) << work.error().line();
    EXPECT_TRUE(work->bores.empty());
    test::expectBothWaysAgree(recipe);
  }
}

TEST(BoreEnds, AHoleThatOnlyTouchesThePartFromOutsideTakesNoWood) {
  for (const double above : {0.0, 5e-4, 1e-3}) {
    SCOPED_TRACE(above);
    test::expectBothWaysAgree(board({Cylinder{{50, 40, 20 + above}, {0, 0, 1}, 4, 10}}));
  }
}

TEST(BoreEnds, AHoleAHairDeepIsTheSameBothWays) {
  for (const double deep : {1e-3, 5e-4, 2e-4}) {
    SCOPED_TRACE(deep);
    test::expectBothWaysAgree(board({kTrench, downTo(8 - deep)}));
  }
}

TEST(BoreEnds, AHoleThroughOneOfTwoWallsLeavesTheOtherWhole) {
  const Tool slot = block({20, 20, 5}, {80, 90, 15});
  for (const double bottom : {7.0, 5.0, 3.0, -1.0}) {
    SCOPED_TRACE(bottom);
    test::expectBothWaysAgree(board({slot, downTo(bottom)}));
  }
  // One hole from either side, and the two tools meet in the air between the walls.
  test::expectBothWaysAgree(board({slot, downTo(12), upTo(8)}));
}

TEST(BoreEnds, TwoHolesThatMeetEndToEndAreOneThroughHole) {
  const auto through = arrangeBored(board({downTo(-1)}));
  ASSERT_TRUE(through);
  for (const double overlap : {0.0, 1e-7, 0.5, 6.0, 20.0}) {
    SCOPED_TRACE(overlap);
    const auto work = arrangeBored(board({downTo(8), upTo(8 + overlap)}));
    ASSERT_TRUE(work) << work.error().line();
    EXPECT_EQ(work->topology(), through->topology());
    EXPECT_NEAR(work->volume, 200 * 80 * 20 - pi * 16 * 20, 1e-6);
    test::expectBothWaysAgree(board({downTo(8), upTo(8 + overlap)}));
  }
}

TEST(BoreEnds, ThreeHolesInLineAreOneWhateverTheirOrder) {
  const Tool middle = Cylinder{{50, 40, 5}, {0, 0, 1}, 4, 10};
  const auto work = arrangeBored(board({downTo(15), upTo(5), middle}));
  ASSERT_TRUE(work) << work.error().line();
  EXPECT_EQ(work->bores.size(), 1U);
  EXPECT_NEAR(work->volume, 200 * 80 * 20 - pi * 16 * 20, 1e-6);
}

TEST(BoreEnds, AHoleThatGoesOnNarrowerIsTheSameBothWays) {
  test::expectBothWaysAgree(board({downTo(8), upTo(8, 3)}));
}

TEST(BoreEnds, AHoleThatLeansIsNotSquareWork) {
  // As far as a direction may be off length 1, the hole's end would stand 3 µm aside.
  EXPECT_FALSE(arrangeBored(board({Cylinder{{50, 40, 21}, {3e-5, 0, -1}, 4, 12}})));
  EXPECT_FALSE(arrangeBored(board({Cylinder{{50, 40, 21}, {0, 0.5, -1}, 4, 12}})));
  EXPECT_TRUE(arrangeBored(board({Cylinder{{50, 40, 21}, {-0.0, 1e-17, -1}, 4, 12}})));
}

TEST(BoreEnds, AStepAcrossTheMouthIsSeenHoweverLargeTheHole) {
  const Tool hole = Cylinder{{-1, 100, 100}, {1, 0, 0}, 90, 2100};
  const Recipe stepped{block({0, 0, 0}, {2000, 200, 200}),
                       {{Step::Kind::remove, {block({-1, -1, -1}, {2e-6, 50, 201}), hole}}}};
  EXPECT_FALSE(arrangeBored(stepped));
}

}  // namespace
}  // namespace dryfit::kernel

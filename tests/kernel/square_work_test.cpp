// Square work is worked out twice here: by counting cells and by general Boolean operations. The
// two share nothing but the recipe and the making of a single box, so each is the other's second
// opinion.

#include "kernel/square_work.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <iostream>
#include <string>

#include "tests/support/cell_count.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"
#include "tests/support/square_agree.h"
#include "tests/support/square_pieces.h"

namespace dryfit::kernel {
namespace {

using test::expectBothWaysAgree;
using test::shown;

/// How many random parts to try of each kind; DRYFIT_SQUARE_PARTS in the environment sets another.
int partsToTry(int usual) {
  const char* given = std::getenv("DRYFIT_SQUARE_PARTS");
  return given ? std::atoi(given) : test::repetitions(usual);
}

void expectRandomPartsAgree(int count, bool grid, test::Amount most) {
  std::mt19937_64 random(test::seed());
  int agreed = 0;
  for (int i = 0; i < count; ++i) {
    const Recipe recipe = test::randomSquareWork(random, grid, most);
    SCOPED_TRACE("seed " + std::to_string(test::seed()) + ", part " + std::to_string(i) + "\n" +
                 shown(recipe));
    const auto work = arrange(recipe);
    if (work) {
      expectBothWaysAgree(recipe);
      ++agreed;
    } else if (work.error().code == ErrorCode::emptyResult) {
      const auto general = buildGeneral(recipe);
      ASSERT_FALSE(general);
      EXPECT_EQ(general.error().code, ErrorCode::emptyResult);
    } else {
      // What is refused is refused with reason: the plain count finds the bad edge or corner too.
      EXPECT_EQ(work.error().code, ErrorCode::invalidSolid);
      EXPECT_FALSE(test::countCells(recipe));
    }
    if (testing::Test::HasFailure()) return;
  }
  std::cout << agreed << " parts of " << count
            << " agree, the others are left to the general way\n";
  EXPECT_GT(agreed, (grid ? 0.6 : 0.95) * count - 3);
}

TEST(SquareWork, OffTheGridIsTheSameBothWays) {
  expectRandomPartsAgree(partsToTry(400), false, {2, 2});
}

TEST(SquareWork, OnAGridFullOfCoincidencesIsTheSameBothWays) {
  expectRandomPartsAgree(partsToTry(400), true, {2, 2});
}

TEST(SquareWork, OfManyCutsIsTheSameBothWays) {
  expectRandomPartsAgree(partsToTry(80) / 4, false, {3, 5});
  expectRandomPartsAgree(partsToTry(80) / 4, true, {3, 5});
}

}  // namespace
}  // namespace dryfit::kernel

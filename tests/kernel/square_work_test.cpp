// Square work is worked out twice here: by counting cells and by general Boolean operations. The
// two share nothing but the recipe, so each is the other's second opinion.

#include "kernel/square_work.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <iostream>
#include <string>

#include "kernel/occt_bridge.h"
#include "tests/support/cell_count.h"
#include "tests/support/random_pieces.h"
#include "tests/support/square_pieces.h"

namespace dryfit::kernel {
namespace {

using test::block;
using testing::HasSubstr;

constexpr auto kAdd = Step::Kind::add;
constexpr auto kRemove = Step::Kind::remove;

std::string shown(const Topology& t) {
  return "solids " + std::to_string(t.solids) + ", shells " + std::to_string(t.shells) +
         ", faces " + std::to_string(t.faces) + ", edges " + std::to_string(t.edges) +
         ", vertices " + std::to_string(t.vertices);
}

std::string shown(const Recipe& recipe) {
  const auto box = [](const Tool& tool) {
    const Box3 b = boundsOf(tool);
    std::string text;
    for (const Point3 p : {b.min, b.max}) {
      for (int axis = 0; axis < 3; ++axis) text += std::to_string(p[axis]) + " ";
    }
    return text + "\n";
  };
  std::string text = "blank " + box(recipe.blank);
  for (const Step& step : recipe.steps) {
    for (const Tool& tool : step.tools) text += (step.kind == kAdd ? "+ " : "- ") + box(tool);
  }
  return text;
}

void expectSameBox(const Box3& a, const Box3& b, double within) {
  EXPECT_LE((a.min - b.min).norm(), within);
  EXPECT_LE((a.max - b.max).norm(), within);
}

void expectSame(const Solid& a, const Solid& b) {
  EXPECT_NEAR(a.volume(), b.volume(), 1e-9 * b.volume());
  EXPECT_NEAR(a.area(), b.area(), 1e-9 * b.area());
  EXPECT_LE((a.centroid() - b.centroid()).norm(), 1e-7);
  expectSameBox(a.bounds(), b.bounds(), 1e-6);
  EXPECT_EQ(a.topology(), b.topology()) << shown(a.topology()) << "\n" << shown(b.topology());
}

/// Square work against its own shape as the geometry library sees it, its validity included, and
/// against the general way.
void expectBothWaysAgree(const Recipe& recipe) {
  const auto square = build(recipe);
  ASSERT_TRUE(square) << square.error().line();
  const auto seen = solidFrom(shapeOf(*square));
  ASSERT_TRUE(seen) << seen.error().line();
  expectSame(*square, *seen);
  const auto general = buildGeneral(recipe);
  ASSERT_TRUE(general) << general.error().line();
  expectSame(*square, *general);
}

/// How many random parts to try of each kind; DRYFIT_SQUARE_PARTS in the environment sets another.
int partsToTry(int usual) {
  const char* given = std::getenv("DRYFIT_SQUARE_PARTS");
  return given ? std::atoi(given) : usual;
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

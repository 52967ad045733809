// The volume of every kind of plane-faced part by a second geometry library: CGAL, in exact
// arithmetic (https://www.cgal.org, Polygon Mesh Processing and 3D Boolean Operations on Nef
// Polyhedra). The two libraries share no code, and CGAL's answer is exact for the rounded corners
// it is given, so agreement to 1e-9 tells that no cut was lost, doubled or left half done.

#include <gtest/gtest.h>

#include <cmath>

#include "kernel/recipe.h"
#include "tests/support/cgal_recipe.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::kernel {
namespace {

void expectSameVolume(const Recipe& recipe) {
  const auto exact = test::cgalVolume(recipe);
  ASSERT_TRUE(exact.has_value());
  const auto part = buildGeneral(recipe);
  if (!part) {
    EXPECT_EQ(part.error().code, ErrorCode::emptyResult) << part.error().line();
    EXPECT_LT(*exact, 1e-9);
    return;
  }
  EXPECT_NEAR(part->volume(), *exact, 1e-9 * *exact);
}

TEST(SecondLibrary, AgreesOnARailWithTenonsAndAGroove) {
  const Recipe rail{
      Block{{{0, 0, 0}, {400, 60, 22}}, {}},
      {{Step::Kind::add,
        {Block{{{-30, 10, 6}, {0, 50, 16}}, {}}, Block{{{400, 10, 6}, {430, 50, 16}}, {}}}},
       {Step::Kind::remove, {Block{{{-31, -1, 8}, {431, 6, 14}}, {}}}}}};
  // Closed form, so that CGAL's side of the comparison is itself checked.
  const double expected = 400.0 * 60 * 22 + 2 * 30.0 * 40 * 10 - 400.0 * 6 * 6;
  EXPECT_NEAR(test::cgalVolume(rail).value(), expected, 1e-12 * expected);
  expectSameVolume(rail);
}

TEST(SecondLibrary, AgreesOnATaperedAndArchedApron) {
  const Prism outline{
      {}, {{0, 0}, {80, 30}, {240, 40}, {400, 28}, {500, 0}, {480, 90}, {20, 90}}, 22};
  Recipe apron{outline, {{Step::Kind::remove, {}}}};
  apron.steps[0].tools.emplace_back(
      Block{{{100, 60, -5}, {200, 75, 30}},
            Frame::rotation({150, 70, 0}, {0, 0, 1}, Angle::degrees(11))});
  expectSameVolume(apron);
}

TEST(SecondLibrary, AgreesOnLumpsThatMeetInAnEdge) {
  // Two opposite corners out of a square post leave two lumps that touch along one line.
  const Recipe post{
      Block{{{0, 0, 0}, {40, 40, 100}}, {}},
      {{Step::Kind::remove,
        {Block{{{-1, -1, -1}, {20, 20, 101}}, {}}, Block{{{20, 20, -1}, {41, 41, 101}}, {}}}}}};
  EXPECT_NEAR(test::cgalVolume(post).value(), 80000, 1e-6);
  expectSameVolume(post);
}

TEST(SecondLibrary, HasNoAnswerForRoundTools) {
  EXPECT_FALSE(test::cgalVolume({Cylinder{{}, {0, 0, 1}, 5, 10}, {}}).has_value());
}

TEST(SecondLibrary, AgreesOnFiveHundredRandomPieces) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(test::seed());
  for (int i = 0; i < test::repetitions(500); ++i) {
    SCOPED_TRACE(i);
    expectSameVolume(test::randomPiece(random, {.turned = i % 2 == 1}));
  }
}

}  // namespace
}  // namespace dryfit::kernel

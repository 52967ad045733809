#include "joinery/trade/species.h"

#include <gtest/gtest.h>

#include <cmath>
#include <set>
#include <string>

namespace dryfit::joinery {
namespace {

TEST(Species, IsFoundByEitherNameInAnyCase) {
  ASSERT_NE(speciesNamed("White Oak"), nullptr);
  EXPECT_EQ(speciesNamed("sugar maple"), speciesNamed("hard maple"));
  EXPECT_EQ(speciesNamed("birch plywood"), nullptr);
  EXPECT_EQ(speciesNamed(""), nullptr);
}

TEST(Species, IsTheSameWithAndWithoutHyphens) {
  ASSERT_NE(speciesNamed("yellow poplar"), nullptr);
  EXPECT_EQ(speciesNamed("yellow poplar"), speciesNamed("yellow-poplar"));
  EXPECT_EQ(speciesNamed("Douglas Fir"), speciesNamed("douglas-fir"));
}

TEST(Species, IsKnownByItsPlainNameAsTheOneThatMovesMost) {
  for (const char* plain : {"oak", "pine", "maple", "larch", "iroko", "chestnut"}) {
    EXPECT_NE(speciesNamed(plain), nullptr) << plain;
  }
  for (const char* kind : {"white oak", "red oak", "european oak"}) {
    EXPECT_GE(speciesNamed("oak")->tangentialShrinkage, speciesNamed(kind)->tangentialShrinkage);
  }
  for (const char* kind : {"scots pine", "eastern white pine", "ponderosa pine", "sugar pine"}) {
    EXPECT_GE(speciesNamed("pine")->tangentialShrinkage, speciesNamed(kind)->tangentialShrinkage);
  }
}

TEST(Species, IsOneWoodUnderBothOfItsNames) {
  EXPECT_TRUE(sameWood("black cherry", "cherry"));
  EXPECT_FALSE(sameWood("black cherry", "european cherry"));
  EXPECT_TRUE(sameWood("bog-oak", "Bog oak"));
  EXPECT_FALSE(sameWood("bog oak", "yew"));
}

TEST(Species, NamesAreUniqueAndSourced) {
  std::set<std::string> names;
  for (const std::string& name : speciesNames()) EXPECT_TRUE(names.insert(name).second) << name;
  for (const Species& s : speciesTable()) {
    EXPECT_FALSE(s.gravitySource.empty()) << s.name;
    EXPECT_FALSE(s.coefficientSource.empty()) << s.name;
    EXPECT_FALSE(s.shrinkageSource.empty()) << s.name;
    EXPECT_GT(s.tangential, s.radial) << s.name;
  }
}

// USDA Wood Handbook (FPL-GTR-190), chapter 13: coefficients follow from the total shrinkage S as
// S / (3000 - 20 S), from 30 % fibre saturation and a size taken at 10 %. Rows whose shrinkage and
// coefficient come from the handbook for one and the same species must obey it to the five printed
// decimals.
TEST(Species, CoefficientsFollowFromTheShrinkage) {
  int checked = 0;
  for (const char* name :
       {"white ash", "american beech", "yellow birch", "black cherry", "black walnut", "red alder",
        "american basswood", "sugar maple", "yellow-poplar", "soft maple"}) {
    const Species* s = speciesNamed(name);
    ASSERT_NE(s, nullptr) << name;
    const auto coefficient = [](double shrinkage) { return shrinkage / (3000 - 20 * shrinkage); };
    EXPECT_NEAR(s->radial, coefficient(s->radialShrinkage), 0.6e-5) << name;
    EXPECT_NEAR(s->tangential, coefficient(s->tangentialShrinkage), 0.6e-5) << name;
    ++checked;
  }
  EXPECT_EQ(checked, 10);
}

TEST(Species, GivesTheMovementOfAFlatSawnBoard) {
  // Equation 13-2 of the same handbook: change = width * C_T * (change of moisture content).
  // 300 mm of white oak from 6 to 12 %: 300 * 0.00365 * 6.
  EXPECT_NEAR(300 * speciesNamed("white oak")->tangential * 6, 6.570, 1e-9);
  EXPECT_NEAR(450 * speciesNamed("sugar maple")->tangential * 4, 6.354, 1e-9);
}

}  // namespace
}  // namespace dryfit::joinery

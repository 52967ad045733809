#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "joinery/piece/purposes.h"

namespace dryfit::joinery {
namespace {

TEST(Purposes, EachHasANameOfItsOwn) {
  std::set<std::string_view> names;
  for (const PurposeTraits& traits : purposes()) {
    EXPECT_FALSE(traits.name.empty());
    EXPECT_TRUE(names.insert(traits.name).second) << traits.name;
    EXPECT_EQ(nameOf(traits.purpose), traits.name);
  }
}

TEST(Purposes, WoodThatStandsOutIsNoCut) {
  for (const PurposeTraits& traits : purposes()) {
    if (!traits.standsOut) continue;
    EXPECT_FALSE(traits.pocket || traits.runsAlong || traits.openBeside) << traits.name;
    EXPECT_FALSE(traits.roomFor || traits.greatestDepth) << traits.name;
    EXPECT_EQ(traits.shortGrain, ShortGrain::never) << traits.name;
  }
}

TEST(Purposes, ACutHasWallsAllRoundOrRunsAlongItsFace) {
  for (const PurposeTraits& traits : purposes()) {
    EXPECT_FALSE(traits.pocket && traits.runsAlong) << traits.name;
  }
}

TEST(Purposes, ARoomIsForWoodThatStandsOut) {
  for (const PurposeTraits& traits : purposes()) {
    if (!traits.roomFor) continue;
    EXPECT_TRUE(traitsOf(*traits.roomFor).standsOut) << traits.name;
    EXPECT_TRUE(traits.pocket) << traits.name;
  }
}

TEST(Purposes, WhatHoldsByItsSectionHasARoom) {
  for (const PurposeTraits& traits : purposes()) {
    if (!traits.bears) continue;
    EXPECT_TRUE(std::ranges::any_of(purposes(), [&](const PurposeTraits& other) {
      return other.roomFor == traits.purpose;
    })) << traits.name;
  }
}

}  // namespace
}  // namespace dryfit::joinery

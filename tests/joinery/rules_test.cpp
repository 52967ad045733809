#include "joinery/trade/rules.h"
#include "joinery/trade/shop_measures.h"

#include <gtest/gtest.h>

#include <cmath>
#include <set>
#include <type_traits>

namespace dryfit::joinery {
namespace {

TEST(Rules, EveryRuleNamesItsSource) {
  for (const Rule& r : rules()) {
    EXPECT_FALSE(r.source.empty()) << r.name;
    EXPECT_FALSE(r.name.empty());
    EXPECT_GT(r.value, 0) << r.name;
  }
}

TEST(Rules, GiveTheirValueInTheirUnit) {
  EXPECT_DOUBLE_EQ(lengthBy(RuleId::panelGap).mm(), rule(RuleId::panelGap).value);
  EXPECT_DOUBLE_EQ(shareBy(RuleId::lapDepthShare), rule(RuleId::lapDepthShare).value);
  EXPECT_DOUBLE_EQ(angleBy(RuleId::grainAngleMost).degrees(), rule(RuleId::grainAngleMost).value);
  EXPECT_FALSE((std::is_constructible_v<LengthRule, ShareRule>));
}

TEST(Rules, AreFoundByTheirId) {
  for (const Rule& r : rules()) EXPECT_EQ(&rule(r.id), &r);
}

TEST(Rules, NamesDiffer) {
  std::set<std::string_view> names;
  for (const Rule& r : rules()) EXPECT_TRUE(names.insert(r.name).second) << r.name;
}

// woodmagazine.com gives 1/2 to 2/3 of the mortised part, woodworkings.ca 7/8: both stand.
TEST(Rules, KeepBothPublishedTenonLengths) {
  EXPECT_DOUBLE_EQ(rule(RuleId::tenonLengthShareLeast).value, 1.0 / 2);
  EXPECT_DOUBLE_EQ(rule(RuleId::tenonLengthShare).value, 2.0 / 3);
  EXPECT_DOUBLE_EQ(rule(RuleId::tenonLengthShareMost).value, 7.0 / 8);
  EXPECT_NE(rule(RuleId::tenonLengthShare).source, rule(RuleId::tenonLengthShareMost).source);
}

TEST(Rules, ClearancesLieBetweenTheirLimits) {
  EXPECT_LE(rule(RuleId::glueClearanceLeast).value, rule(RuleId::glueClearance).value);
  EXPECT_LE(rule(RuleId::glueClearance).value, rule(RuleId::glueClearanceMost).value);
  EXPECT_LE(rule(RuleId::slidingClearanceLeast).value, rule(RuleId::slidingClearance).value);
  EXPECT_LE(rule(RuleId::slidingClearance).value, rule(RuleId::slidingClearanceMost).value);
}

TEST(Cutters, NearestNeverExceedsTheMost) {
  for (const Unit unit : {Unit::mm, Unit::inch}) {
    const ShopMeasures& shop = usualMeasures(unit);
    for (double wanted = 0.5; wanted < 30; wanted += 0.25) {
      const double most = wanted * 1.5;
      const double cutter = shop.cutterNear(wanted, most);
      EXPECT_TRUE(cutter <= most || cutter == shop.cutters.front()) << wanted;
      for (const double other : shop.cutters) {
        if (other > most) continue;
        EXPECT_LE(std::abs(cutter - wanted), std::abs(other - wanted) + 1e-12);
      }
    }
  }
}

TEST(Cutters, AreInchesInAShopOfInches) {
  // A third of 1 3/8 in stock is 11.6 mm: a 1/2 in chisel, where a metric shop takes 12 mm.
  const double third = 1.375 * 25.4 / 3;
  EXPECT_DOUBLE_EQ(usualMeasures(Unit::inch).cutterNear(third, 2 * third), 12.7);
  EXPECT_DOUBLE_EQ(usualMeasures(Unit::mm).cutterNear(third, 2 * third), 12);
}

TEST(SettingOut, RoundsDownToHalfMillimetresOrSixteenths) {
  const ShopMeasures& shop = usualMeasures(Unit::mm);
  EXPECT_DOUBLE_EQ(shop.setOut(38.667), 38.5);
  EXPECT_DOUBLE_EQ(shop.setOut(9), 9);
  EXPECT_DOUBLE_EQ(shop.setOut(0.1 * 3 / 0.3 * 9), 9);  // rounding noise does not lose a step
  EXPECT_DOUBLE_EQ(usualMeasures(Unit::inch).setOut(25.4 * 1.49), 25.4 * 23 / 16);
}

}  // namespace
}  // namespace dryfit::joinery

#include <gtest/gtest.h>

#include <numbers>

#include "joinery/trade/rules.h"
#include "tests/support/hand_made.h"

namespace dryfit::joinery {
namespace {

using test::count;
using test::findingsOf;
using test::HandMade;

/// A leg 50 x 50 with two rails that meet it at right angles; their mortises are `depth` deep.
HandMade legWithRails(double depthA, double depthB) {
  HandMade made;
  const PartId leg = made.part("leg", {{0, 0, 0}, {50, 50, 700}}, Axis::z, Axis::x);
  const PartId front = made.part("front_rail", {{50, 15, 600}, {400, 35, 680}}, Axis::x, Axis::z);
  const PartId side = made.part("side_rail", {{15, 50, 600}, {35, 400, 680}}, Axis::y, Axis::z);
  made.mortiseAndTenon("front", front, leg, {{50 - depthA, 20, 620}, {50, 30, 660}}, Face::left);
  made.mortiseAndTenon("side", side, leg, {{20, 50 - depthB, 620}, {30, 50, 660}}, Face::front);
  return made;
}

TEST(Clash, IsFoundWhereTwoMortisesMeetInALeg) {
  // The first reaches in to x = 22, the second lies between x = 20 and 30 and reaches to y = 22.
  const auto findings = findingsOf(legWithRails(28, 28).piece, "clash");
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].parts, std::vector{PartId(0)});
  EXPECT_EQ(findings[0].joint, JointId(0));
  EXPECT_NEAR(findings[0].measured, 8.0 * 8 * 40, 1e-6);
  EXPECT_NEAR(findings[0].at.z, 640, 1e-9);
  EXPECT_EQ(findings[0].text,
            "In leg the mortise of joint front runs into the mortise of joint side: they overlap "
            "by 2560 mm³, 40 x 8 x 8 mm.");
  EXPECT_EQ(findings[0].mend,
            "Make the tenon of joint front at most 13.5 mm long, or make the tenon of joint side "
            "at most 13.5 mm long.");
}

TEST(Clash, BeginsExactlyWhereTheMortisesBeginToShareWood) {
  for (double depth = 15; depth <= 30; depth += 0.5) {
    const auto findings = findingsOf(legWithRails(depth, 30).piece, "clash");
    // The second mortise takes x = 20..30, y = 20..50; the first y = 20..30 from x = 50 - depth.
    const double shared = std::max(0.0, depth - 20) * 10 * 40;
    ASSERT_EQ(findings.size(), shared > 0 ? 1u : 0u) << depth;
    if (shared > 0) {
      EXPECT_NEAR(findings[0].measured, shared, 1e-6);
    }
  }
}

TEST(Clash, VanishesWhenATenonIsMadeAsShortAsTheMendSays) {
  const HandMade made = legWithRails(28 - (28 - 2 - 13.5), 28);
  EXPECT_TRUE(findingsOf(made.piece, "clash").empty());
  EXPECT_TRUE(findingsOf(made.piece, "breakout").empty());
}

TEST(Clash, IsNoMatterOfHowThePieceIsTurned) {
  HandMade made = legWithRails(28, 28);
  const auto square = findingsOf(made.piece, "clash");
  made.turnAll({1, 2, 3}, kernel::Vec3{2, -1, 1}.unit(), Angle::degrees(71));
  const auto turned = findingsOf(made.piece, "clash");
  ASSERT_EQ(turned.size(), square.size());
  EXPECT_EQ(turned[0].text, square[0].text);
  EXPECT_EQ(turned[0].measured, square[0].measured);
}

/// A stile with a panel groove along its inner edge and a mortise there.
HandMade groovedStile(kernel::Box3 mortise, Face entry) {
  HandMade made;
  const PartId stile = made.part("stile", {{0, 0, 0}, {60, 24, 600}}, Axis::z, Axis::x);
  const PartId rail = made.part("rail", {{60, 0, 500}, {360, 24, 560}}, Axis::x, Axis::z);
  const PartId panel = made.part("panel", {{60, 8, 60}, {360, 14, 500}}, Axis::z, Axis::x, "ply");
  const JointId groove = made.joint("groove", {panel, stile, rail});
  made.cut(groove, stile, Purpose::groove, {{50, 8, 0}, {60, 14, 600}}, Face::right);
  const JointId corner = made.joint("corner", {rail, stile});
  made.cut(corner, stile, Purpose::mortise, mortise, entry);
  return made;
}

TEST(Clash, IsNotFoundBetweenAMortiseAndTheGrooveItIsInLineWith) {
  // As wide as the groove, within half a millimetre of it, wider and narrower.
  for (const auto& [from, to] : {std::pair(8.0, 14.0), {8.4, 14.4}, {7.0, 15.0}, {9.0, 13.0}}) {
    const HandMade made = groovedStile({{20, from, 510}, {60, to, 540}}, Face::right);
    EXPECT_TRUE(findingsOf(made.piece, "clash").empty()) << from << " to " << to;
  }
}

TEST(Clash, IsFoundBetweenAMortiseAndAGrooveOutOfLine) {
  const HandMade made = groovedStile({{20, 11, 510}, {60, 18, 540}}, Face::right);
  const auto findings = findingsOf(made.piece, "clash");
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_NEAR(findings[0].measured, 3.0 * 10 * 30, 1e-6);
  EXPECT_EQ(findings[0].mend,
            "Line up the groove of joint groove and the mortise of joint corner across "
            "the thickness.");
}

TEST(Clash, IsFoundBetweenAMortiseAndAGrooveOfAnotherFace) {
  const HandMade made = groovedStile({{50, 0, 510}, {56, 10, 540}}, Face::front);
  const auto findings = findingsOf(made.piece, "clash");
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_NEAR(findings[0].measured, 2.0 * 6 * 30, 1e-6);
}

TEST(Clash, IsNotFoundWherePanelGroovesOfOneFrameMeet) {
  HandMade made;
  const PartId stile = made.part("stile", {{0, 0, 0}, {60, 24, 600}}, Axis::z, Axis::x);
  const PartId rail = made.part("rail", {{60, 0, 500}, {360, 24, 560}}, Axis::x, Axis::z);
  const PartId a = made.part("a", {{60, 8, 60}, {360, 14, 300}}, Axis::z, Axis::x, "ply");
  const PartId b = made.part("b", {{60, 8, 300}, {360, 14, 500}}, Axis::z, Axis::x, "ply");
  const JointId first = made.joint("first", {a, stile, rail});
  const JointId second = made.joint("second", {b, stile, rail});
  made.cut(first, stile, Purpose::groove, {{50, 8, 0}, {60, 14, 320}}, Face::right);
  made.cut(second, stile, Purpose::groove, {{50, 8, 290}, {60, 14, 600}}, Face::right);
  EXPECT_TRUE(findingsOf(made.piece, "clash").empty());
}

TEST(Clash, IsFoundWhereADowelHoleMeetsAMortise) {
  HandMade made = groovedStile({{20, 8, 510}, {60, 14, 540}}, Face::right);
  const JointId dowels = made.joint("dowels", {PartId(1), PartId(0)});
  made.bore(dowels, PartId(0), {{30, 0, 520}, {38, 16, 528}}, Face::front);
  const auto findings = findingsOf(made.piece, "clash");
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].joint, JointId(1));
  EXPECT_NEAR(findings[0].measured, std::numbers::pi * 16 * 6, 1e-3);
}

TEST(Clash, TellsWhenAGrooveTakesMoreThanHalfATenon) {
  const double limit = rule(RuleId::tenonLossShareMost).value;
  for (const double depth : {10.0, 17.0, 18.0, 25.0}) {
    HandMade made;
    const PartId stile = made.part("stile", {{0, 0, 0}, {60, 24, 600}}, Axis::z, Axis::x);
    const PartId rail = made.part("rail", {{60, 0, 500}, {360, 24, 560}}, Axis::x, Axis::z);
    const PartId panel =
        made.part("panel", {{60, 7, 100}, {360, 15, 500}}, Axis::z, Axis::x, "ply");
    made.mortiseAndTenon("corner", rail, stile, {{20, 7, 505}, {60, 15, 540}}, Face::left, 2, 0);
    const JointId groove = made.joint("groove", {panel, rail});
    // Runs out through the rail's end and so notches the tenon, whose width is 35 from z = 505.
    made.cut(groove, rail, Purpose::groove, {{0, 7, 500}, {360, 15, 500 + depth}}, Face::bottom);
    const double lost = (depth - 5) / 35;
    const auto findings = findingsOf(made.piece, "clash");
    ASSERT_EQ(findings.size(), lost > limit ? 1u : 0u) << depth;
    if (findings.empty()) continue;
    EXPECT_NEAR(findings[0].measured, lost, 1e-9);
    EXPECT_EQ(findings[0].parts, std::vector{rail});
  }
}

}  // namespace
}  // namespace dryfit::joinery

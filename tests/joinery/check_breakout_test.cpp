#include <gtest/gtest.h>

#include <cmath>

#include "joinery/fit/dry_fit.h"
#include "joinery/trade/rules.h"
#include "tests/support/hand_made.h"
#include "tests/support/joint_bench.h"

namespace dryfit::joinery {
namespace {

using test::findingsOf;
using test::HandMade;

const double kLeast = 4.5;  // diyinfo.org, wood left beyond a stub mortise

/// A stile 60 wide whose mortise leaves `wall` beyond its bottom.
HandMade stileWithWall(double wall) {
  HandMade made;
  const PartId stile = made.part("stile", {{0, 0, 0}, {60, 24, 600}}, Axis::z, Axis::x);
  const PartId rail = made.part("rail", {{60, 0, 500}, {360, 24, 560}}, Axis::x, Axis::z);
  made.mortiseAndTenon("corner", rail, stile, {{wall, 7, 505}, {60, 15, 540}}, Face::left);
  return made;
}

TEST(Breakout, AppearsExactlyWhereTheWallFallsBelowTheLimit) {
  ASSERT_EQ(rule(RuleId::mortiseWallLeast).value, kLeast);
  for (double wall = 0; wall <= 8; wall += 0.5) {
    const auto findings = findingsOf(stileWithWall(wall).piece, "breakout");
    ASSERT_EQ(findings.size(), wall < kLeast ? 1u : 0u) << wall;
    if (findings.empty()) continue;
    EXPECT_NEAR(findings[0].measured, wall, 1e-9);
    EXPECT_EQ(findings[0].limit, kLeast);
    EXPECT_EQ(findings[0].severity, wall > 0 ? Severity::warning : Severity::error);
  }
}

TEST(Breakout, SaysWhereTheWoodIsThinAndHowLongTheTenonMayBe) {
  const auto findings = findingsOf(stileWithWall(2).piece, "breakout");
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].text,
            "The mortise of joint corner leaves 2 mm of wood at the left of stile; at least 4.5 "
            "mm is needed.");
  EXPECT_EQ(findings[0].mend, "Make the tenon of joint corner at most 53.5 mm long.");
  EXPECT_EQ(findings[0].box, (kernel::Box3{{0, 7, 505}, {2, 15, 540}}));
}

TEST(Breakout, SaysByHowMuchACutGoesPastTheFace) {
  const auto findings = findingsOf(stileWithWall(-3).piece, "breakout");
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::error);
  EXPECT_EQ(findings[0].text,
            "The mortise of joint corner breaks out of stile at the left by 3 mm.");
}

/// Two rails, one on the other, stand 20 mm short of the stile on tenons of the given length; they
/// lean about their own length, so that the mortises are not square to the stile.
Piece railsShortOfTheirStile(double tenon) {
  test::ModelText text;
  text.part("stile", {"z", 0, 600}, {"x", 0, 60}, {"y", 0, 24});
  for (const auto& [name, from] : {std::pair("low", 100), std::pair("high", 160)}) {
    text.part(name, {"x", 80, 300}, {"z", from, 60}, {"y", 0, 24});
    text.turn(name, "x", {80, 12, from + 30.0}, 5);
    text.joint(std::string(name) + "_joint", {{"kind", "blind-mortise-tenon"},
                                              {"tenon", name},
                                              {"mortise", "stile"},
                                              {"tenon_length", tenon},
                                              {"bottom_clearance", 0},
                                              {"tenon_width", 59}});
  }
  return test::pieceOf(text);
}

TEST(Breakout, GoesOnWhereMortisesLieWhollyOutsideTheirPart) {
  for (const double tenon : {5.0, 19.0, 19.5, 20.0}) {
    SCOPED_TRACE(tenon);
    const Piece piece = railsShortOfTheirStile(tenon);
    const auto solids = buildSolids(piece);
    ASSERT_TRUE(solids) << solids.error().line();
    EXPECT_DOUBLE_EQ(solids->front().volume(), 600 * 60 * 24);
    const auto findings = checkPiece(piece, *solids);
    ASSERT_TRUE(findings) << findings.error().line();
    EXPECT_EQ(test::count(*findings, FindingKind::breakout), 0);
    // Nobody is left in doubt about joints that cut nothing.
    EXPECT_EQ(test::count(*findings, FindingKind::gap), 2);
  }
}

TEST(Breakout, IsNotFoundWhereAMortiseIsMeantToComeOut) {
  HandMade made = stileWithWall(0);
  for (Feature& feature : made.piece.parts[0].features) feature.through = true;
  EXPECT_TRUE(findingsOf(made.piece, "breakout").empty());
}

TEST(Breakout, IsFoundBesideAMortiseTooNearToAFace) {
  for (const double wall : {2.0, 4.0, 5.0}) {
    HandMade made = stileWithWall(10);
    const JointId other = made.joint("other", {PartId(1), PartId(0)});
    made.cut(other, PartId(0), Purpose::mortise, {{30, wall, 100}, {60, wall + 6, 140}},
             Face::right);
    const auto findings = findingsOf(made.piece, "breakout");
    ASSERT_EQ(findings.size(), wall < kLeast ? 1u : 0u) << wall;
    if (findings.empty()) continue;
    EXPECT_NEAR(findings[0].measured, wall, 1e-9);
    EXPECT_EQ(findings[0].joint, other);
  }
}

TEST(Breakout, AllowsAThirdOfThinStockBesideAGroove) {
  // A groove of a third in 12 mm stock leaves 4 mm a side: less than beside a mortise, but more
  // than a quarter of the stock.
  for (const auto& [from, found] : {std::pair(4.0, 0u), {3.0, 0u}, {2.5, 1u}}) {
    HandMade made;
    const PartId side = made.part("side", {{0, 0, 0}, {500, 12, 100}}, Axis::x, Axis::z);
    const PartId panel =
        made.part("panel", {{0, from, 100}, {500, from + 4, 400}}, Axis::x, Axis::z);
    const JointId joint = made.joint("groove", {panel, side});
    made.cut(joint, side, Purpose::groove, {{0, from, 93}, {500, from + 4, 100}}, Face::top);
    EXPECT_EQ(findingsOf(made.piece, "breakout").size(), found) << from;
  }
}

/// Two mortises that enter a leg by opposite faces, each `depth` deep in 50 mm.
HandMade oppositeMortises(double depth) {
  HandMade made;
  const PartId leg = made.part("leg", {{0, 0, 0}, {50, 50, 700}}, Axis::z, Axis::x);
  const PartId right = made.part("right", {{50, 15, 600}, {400, 35, 680}}, Axis::x, Axis::z);
  const PartId left = made.part("left", {{-400, 15, 600}, {0, 35, 680}}, Axis::x, Axis::z);
  made.mortiseAndTenon("right", right, leg, {{50 - depth, 20, 620}, {50, 30, 660}}, Face::left);
  made.mortiseAndTenon("left", left, leg, {{0, 20, 620}, {depth, 30, 660}}, Face::right);
  return made;
}

TEST(Breakout, IsFoundWhereTwoMortisesLeaveTooThinAWallBetweenThem) {
  for (double depth = 20; depth <= 25; depth += 0.25) {
    const double wall = 50 - 2 * depth;
    const auto findings = findingsOf(oppositeMortises(depth).piece, "breakout");
    ASSERT_EQ(findings.size(), wall < kLeast ? 1u : 0u) << depth;
    if (findings.empty()) continue;
    EXPECT_NEAR(findings[0].measured, wall, 1e-9);
    EXPECT_EQ(findings[0].severity, wall > 0 ? Severity::warning : Severity::error);
    EXPECT_NEAR(findings[0].at.x, 25, 1e-9);
    EXPECT_TRUE(findingsOf(oppositeMortises(depth).piece, "clash").empty());
  }
}

TEST(Breakout, MeasuresTheWallBetweenRoundHoles) {
  // Two holes of 8 mm whose middles are 11 mm apart on the diagonal leave 3 mm.
  HandMade made;
  const PartId board = made.part("board", {{0, 0, 0}, {300, 100, 30}}, Axis::x, Axis::y);
  const PartId a = made.part("a", {{0, 0, 30}, {300, 20, 80}}, Axis::x, Axis::z);
  const PartId b = made.part("b", {{0, 50, 30}, {300, 70, 80}}, Axis::x, Axis::z);
  const JointId first = made.joint("first", {a, board});
  const JointId second = made.joint("second", {b, board});
  const double step = 11 / std::sqrt(2.0);
  made.bore(first, board, {{96, 46, 10}, {104, 54, 30}}, Face::top);
  made.bore(second, board, {{96 + step, 46 + step, 10}, {104 + step, 54 + step, 30}}, Face::top);
  const auto findings = findingsOf(made.piece, "breakout");
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_NEAR(findings[0].measured, 3, 1e-6);
  EXPECT_TRUE(findingsOf(made.piece, "clash").empty());
}

TEST(Breakout, IsNoMatterOfHowThePieceIsTurned) {
  for (HandMade made : {stileWithWall(2), oppositeMortises(24)}) {
    const auto square = findingsOf(made.piece, "breakout");
    made.turnAll({5, 5, 5}, kernel::Vec3{0, 0, 1}, Angle::degrees(12));
    const auto turned = findingsOf(made.piece, "breakout");
    ASSERT_EQ(turned.size(), square.size());
    EXPECT_EQ(turned[0].text, square[0].text);
    EXPECT_EQ(turned[0].measured, square[0].measured);
  }
}

}  // namespace
}  // namespace dryfit::joinery

#include <gtest/gtest.h>

#include "joinery/trade/rules.h"
#include "tests/support/hand_made.h"

namespace dryfit::joinery {
namespace {

using test::count;
using test::findingsOf;
using test::HandMade;

/// A stile and a rail with a tenon `width` wide whose mortise ends `end` below the stile's top.
HandMade corner(double width, double end) {
  HandMade made;
  const PartId stile = made.part("stile", {{0, 0, 0}, {60, 24, 600}}, Axis::z, Axis::x);
  const PartId rail = made.part("rail", {{60, 0, 400}, {360, 24, 600}}, Axis::x, Axis::z);
  made.mortiseAndTenon("corner", rail, stile, {{18, 8, 600 - end - width}, {60, 16, 600 - end}},
                       Face::left);
  return made;
}

TEST(ShortGrain, IsFoundInATenonAcrossTheGrain) {
  HandMade made = corner(36, 30);
  EXPECT_TRUE(findingsOf(made.piece, "grain").empty());
  made.piece.parts[1].grain = PartAxis::width;
  const auto findings = findingsOf(made.piece, "grain");
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].kind, FindingKind::shortGrain);
  EXPECT_EQ(findings[0].severity, Severity::error);
  EXPECT_EQ(findings[0].parts, std::vector{PartId(1)});
  EXPECT_EQ(findings[0].mend, "Run the grain of rail along its length, or use a loose tenon.");
}

TEST(ShortGrain, IsNoMatterInSheetGoods) {
  HandMade made = corner(36, 3);
  made.piece.parts[1].grain = PartAxis::width;
  ASSERT_FALSE(findingsOf(made.piece, "grain").empty());
  for (Part& part : made.piece.model.parts) part.material = "ply";
  EXPECT_TRUE(findingsOf(made.piece, "grain").empty());
}

TEST(ShortGrain, IsFoundExactlyWhereAMortiseComesTooNearToTheEnd) {
  const double least = rule(RuleId::endWoodLeast).value;
  for (double end = 0; end <= 20; end += 0.5) {
    const auto findings = findingsOf(corner(36, end).piece, "grain");
    // At 0 the mortise is open at the end: nothing is left there to break off.
    const bool near = end > 0 && end < least;
    ASSERT_EQ(findings.size(), near ? 1u : 0u) << end;
    if (!near) continue;
    EXPECT_EQ(findings[0].severity, Severity::warning);
    EXPECT_NEAR(findings[0].measured, end, 1e-9);
    EXPECT_NEAR(findings[0].at.z, 600 - end / 2, 1e-9);
  }
}

TEST(CrossGrain, IsFoundWhereAWideTenonIsGlued) {
  for (const auto& [width, found] : {std::pair(90.0, 0), {101.0, 0}, {102.0, 1}, {150.0, 1}}) {
    const auto findings = findingsOf(corner(width, 20).piece, "grain");
    ASSERT_EQ(count(findings, FindingKind::crossGrain), found) << width;
    if (found == 0) continue;
    EXPECT_NEAR(findings[0].measured, width, 1e-9);
    EXPECT_EQ(findings[0].severity, Severity::warning);
  }
}

TEST(CrossGrain, IsNotFoundWhereThereIsNoGlue) {
  HandMade made = corner(150, 20);
  made.piece.joints.front().glued = false;
  EXPECT_TRUE(findingsOf(made.piece, "grain").empty());
}

TEST(CrossGrain, IsNotFoundWhereBothMatesMoveTogether) {
  // A shelf across its sides: both grow from front to back, however deep they are.
  HandMade made;
  const PartId side = made.part("side", {{0, 0, 0}, {20, 300, 700}}, Axis::z, Axis::y);
  const PartId shelf = made.part("shelf", {{20, 0, 300}, {600, 300, 320}}, Axis::x, Axis::y);
  const JointId joint = made.joint("housing", {shelf, side});
  made.insert(joint, shelf, Purpose::tongue, {{14, 0, 300}, {20, 300, 320}}, Face::left);
  made.cut(joint, side, Purpose::housing, {{14, 0, 300}, {20, 300, 320}}, Face::right);
  EXPECT_TRUE(findingsOf(made.piece, "grain").empty());
  // With the side's grain from front to back it no longer moves there, and holds the shelf fast.
  made.piece.parts[side.index()].grain = PartAxis::width;
  EXPECT_EQ(count(findingsOf(made.piece, "grain"), FindingKind::crossGrain), 1);
}

TEST(CrossGrain, IsFoundWhereBareFacesAreGlued) {
  // An end cap glued across a board: no wood is cut, and yet the board cannot move.
  const double most = rule(RuleId::crossGrainWidthMost).value;
  for (const double width : {most - 1, most + 1, 300.0}) {
    HandMade made;
    const PartId board = made.part("board", {{0, 0, 0}, {600, width, 20}}, Axis::x, Axis::y);
    const PartId cap = made.part("cap", {{600, 0, 0}, {660, width, 20}}, Axis::y, Axis::x);
    made.joint("glue", {cap, board});
    const auto findings = findingsOf(made.piece, "grain");
    ASSERT_EQ(count(findings, FindingKind::crossGrain), width > most ? 1 : 0) << width;
    if (width > most) {
      EXPECT_NEAR(findings[0].measured, width, 1e-9);
    }
    made.piece.parts[cap.index()].grain = PartAxis::width;
    EXPECT_TRUE(findingsOf(made.piece, "grain").empty()) << "two boards side by side";
  }
}

TEST(CrossGrain, DoesNotCountWhatStandsOutBehindTheMate) {
  // A tenon 200 long in a stile 60 wide.
  HandMade made;
  const PartId stile = made.part("stile", {{0, 0, 0}, {60, 24, 600}}, Axis::z, Axis::x);
  const PartId rail = made.part("rail", {{60, 0, 300}, {360, 24, 360}}, Axis::x, Axis::z);
  made.mortiseAndTenon("corner", rail, stile, {{-140, 8, 310}, {60, 16, 350}}, Face::left);
  EXPECT_EQ(count(findingsOf(made.piece, "grain"), FindingKind::crossGrain), 0);
}

TEST(CrossGrain, IsNoMatterOfHowThePieceIsTurned) {
  HandMade made = corner(150, 5);
  const auto square = findingsOf(made.piece, "grain");
  made.turnAll({0, 100, 0}, kernel::Vec3{1, 1, 1}.unit(), Angle::degrees(50));
  const auto turned = findingsOf(made.piece, "grain");
  ASSERT_EQ(square.size(), 2u);
  ASSERT_EQ(turned.size(), 2u);
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_EQ(turned[i].text, square[i].text);
    EXPECT_NEAR(turned[i].measured, square[i].measured, 1e-9);
  }
}

}  // namespace
}  // namespace dryfit::joinery

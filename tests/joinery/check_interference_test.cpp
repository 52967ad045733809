#include <gtest/gtest.h>

#include <random>

#include "tests/support/hand_made.h"

namespace dryfit::joinery {
namespace {

using test::count;
using test::findingsOf;
using test::HandMade;

/// An upright stile 60 x 24 and a rail that stands `into` mm inside it.
HandMade railIntoStile(double into) {
  HandMade made;
  made.part("stile", {{0, 0, 0}, {60, 24, 600}}, Axis::z, Axis::x);
  made.part("rail", {{60 - into, 0, 500}, {360, 24, 560}}, Axis::x, Axis::z);
  return made;
}

TEST(Interference, IsFoundWhereARailRunsIntoAStile) {
  const auto findings = findingsOf(railIntoStile(12.5).piece, "interference");
  ASSERT_EQ(findings.size(), 1u);
  const Finding& f = findings.front();
  EXPECT_EQ(f.kind, FindingKind::interference);
  EXPECT_EQ(f.severity, Severity::error);
  EXPECT_EQ(f.parts, (std::vector{PartId(0), PartId(1)}));
  EXPECT_FALSE(f.joint.has_value());
  EXPECT_NEAR(f.measured, 12.5 * 24 * 60, 1e-6);
  EXPECT_NEAR(f.at.x, 60 - 6.25, 1e-6);
  EXPECT_NEAR(f.at.y, 12, 1e-6);
  EXPECT_NEAR(f.at.z, 530, 1e-6);
  EXPECT_NEAR(f.box.size().x, 12.5, 1e-5);
  EXPECT_EQ(
      f.text,
      "Stile and rail overlap by 18000 mm³ of wood, 60 x 12.5 x 24 mm; no joint connects them.");
  EXPECT_EQ(f.mend,
            "Shorten rail by 12.5 mm at its left end, or add the joint that lets one into the "
            "other.");
}

TEST(Interference, IsNotFoundWhereFacesTouch) {
  EXPECT_TRUE(findingsOf(railIntoStile(0).piece, "interference").empty());
}

TEST(Interference, IsNotFoundWhereATenonStandsInItsMortise) {
  HandMade made = railIntoStile(0);
  made.mortiseAndTenon("corner", PartId(1), PartId(0), {{20, 7, 510}, {60, 15, 545}}, Face::left);
  EXPECT_TRUE(findingsOf(made.piece, "interference").empty());
}

TEST(Interference, BeginsWhereATenonOutgrowsItsMortise) {
  for (const double over : {-0.5, 0.0, 0.5, 3.0}) {
    HandMade made = railIntoStile(0);
    made.mortiseAndTenon("corner", PartId(1), PartId(0), {{20, 7, 510}, {60, 15, 545}}, Face::left,
                         -over, 0);
    const auto findings = findingsOf(made.piece, "interference");
    ASSERT_EQ(findings.size(), over > 0 ? 1u : 0u) << over;
    if (over <= 0) continue;
    EXPECT_NEAR(findings.front().measured, over * 8 * 35, 1e-6);
    EXPECT_EQ(findings.front().joint, JointId(0));
  }
}

TEST(Interference, LeavesATightTenonToTheFit) {
  HandMade made = railIntoStile(0);
  made.mortiseAndTenon("corner", PartId(1), PartId(0), {{20, 7, 510}, {60, 15, 545}}, Face::left, 2,
                       -0.2);
  EXPECT_TRUE(findingsOf(made.piece, "interference").empty());
  EXPECT_EQ(count(findingsOf(made.piece, "fit"), FindingKind::tight), 1);
}

TEST(Interference, NamesTheTenonThatComesOutIntoANeighbour) {
  HandMade made = railIntoStile(0);
  const PartId shelf = made.part("shelf", {{-200, 0, 500}, {0, 24, 560}}, Axis::x, Axis::z);
  const JointId joint = made.joint("corner", {PartId(1), PartId(0)});
  made.insert(joint, PartId(1), Purpose::tenon, {{-6, 7, 510}, {60, 15, 545}}, Face::left);
  made.cut(joint, PartId(0), Purpose::mortise, {{0, 7, 510}, {60, 15, 545}}, Face::right, true);
  const auto findings = findingsOf(made.piece, "interference");
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings.front().parts, (std::vector{PartId(1), shelf}));
  EXPECT_NEAR(findings.front().measured, 6 * 8 * 35, 1e-6);
  EXPECT_EQ(findings.front().mend, "Make the tenon of joint corner at most 60 mm long.");
}

TEST(Interference, SaysByHowMuchTheShouldersOverlap) {
  HandMade made = railIntoStile(2);
  made.joint("corner", {PartId(1), PartId(0)});
  made.piece.joints.front().gap = -2;
  const auto findings = findingsOf(made.piece, "interference");
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings.front().mend, "Shorten rail by 2 mm at joint corner.");
  EXPECT_TRUE(findingsOf(made.piece, "gap").empty());
}

TEST(Interference, EqualsTheBoxesSharedByRandomBoards) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE(testing::Message() << "seed " << seed);
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> place(0, 300);
  std::uniform_real_distribution<double> size(10, 120);
  for (int round = 0; round < 10; ++round) {
    HandMade made;
    std::vector<kernel::Box3> boxes;
    for (int i = 0; i < 8; ++i) {
      const kernel::Point3 corner{place(random), place(random), place(random)};
      boxes.push_back({corner, corner + kernel::Vec3{size(random), size(random), size(random)}});
      made.part("board" + std::to_string(i), boxes.back(), i % 2 == 0 ? Axis::x : Axis::z, Axis::y);
    }
    const auto findings = findingsOf(made.piece, "interference");
    std::size_t expected = 0;
    for (std::size_t a = 0; a < boxes.size(); ++a) {
      for (std::size_t b = a + 1; b < boxes.size(); ++b) {
        const double volume = boxes[a].common(boxes[b]).volume();
        if (volume <= 0.01) continue;
        ASSERT_LT(expected, findings.size());
        EXPECT_EQ(findings[expected].parts, (std::vector{PartId(a), PartId(b)}));
        EXPECT_NEAR(findings[expected].measured, volume, 1e-9 * volume + 1e-6);
        ++expected;
      }
    }
    EXPECT_EQ(findings.size(), expected);
  }
}

TEST(Interference, DoesNotChangeWhenTheWholePieceIsTurned) {
  HandMade made = railIntoStile(12.5);
  const auto square = findingsOf(made.piece, "interference");
  const kernel::Frame turn =
      kernel::Frame::rotation({10, 20, 30}, kernel::Vec3{1, 2, 3}.unit(), Angle::degrees(37));
  made.turnAll({10, 20, 30}, kernel::Vec3{1, 2, 3}.unit(), Angle::degrees(37));
  const auto turned = findingsOf(made.piece, "interference");
  ASSERT_EQ(square.size(), 1u);
  ASSERT_EQ(turned.size(), 1u);
  EXPECT_NEAR(turned[0].measured, square[0].measured, 1e-6);
  EXPECT_EQ(turned[0].text, square[0].text);
  EXPECT_EQ(turned[0].mend, square[0].mend);
  EXPECT_LT((turned[0].at - turn.place(square[0].at)).norm(), 1e-6);
}

TEST(Interference, IsNotFoundBetweenTouchingPartsHoweverTheyAreTurned) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE(testing::Message() << "seed " << seed);
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> any(-1, 1);
  for (int round = 0; round < 10; ++round) {
    HandMade made = railIntoStile(0);
    made.mortiseAndTenon("corner", PartId(1), PartId(0), {{20, 7, 510}, {60, 15, 545}}, Face::left,
                         0, 0);
    made.turnAll({100 * any(random), 0, 0},
                 kernel::Vec3{any(random), any(random), 1.5 + any(random)}.unit(),
                 Angle::degrees(180 * any(random)));
    EXPECT_TRUE(findingsOf(made.piece, "interference").empty());
  }
}

}  // namespace
}  // namespace dryfit::joinery

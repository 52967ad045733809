// A joint that cannot be cut: the rest of the piece stands, and the finding says what would mend
// it.

#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "joinery/file/model_file.h"
#include "joinery/fit/dry_fit.h"
#include "tests/joinery/cupboard_sample.h"
#include "tests/support/joint_bench.h"
#include "tests/support/joint_scenes.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::joinery {
namespace {

using ::testing::HasSubstr;
using ::testing::SizeIs;

/// Two posts and a rail that stands `short_` mm short of the right one.
test::ModelText railShortBy(double short_) {
  test::ModelText text;
  text.part("left", {"z", 0, 700}, {"x", 0, 60}, {"y", 0, 40});
  text.part("right", {"z", 0, 700}, {"x", 560, 60}, {"y", 0, 40});
  text.part("rail", {"x", 60, 500 - short_}, {"z", 500, 80}, {"y", 0, 40});
  text.joint("near", {{"kind", "blind-mortise-tenon"}, {"tenon", "rail"}, {"mortise", "left"}});
  text.joint("far", {{"kind", "blind-mortise-tenon"}, {"tenon", "rail"}, {"mortise", "right"}});
  return text;
}

DryFit fitOf(const test::ModelText& text) {
  const auto file = ModelFile::parse(text.json().dump(2), "test");
  if (!file) throw std::runtime_error(file.error().line());
  return fitOf(file->model(), Basis::drawn);
}

TEST(AJointThatCannotBeCut, LeavesTheRestOfThePieceStanding) {
  const DryFit fit = fitOf(railShortBy(83));
  ASSERT_EQ(fit.piece.joints.size(), 2U);
  EXPECT_FALSE(fit.piece.joints[0].notCut);
  EXPECT_TRUE(fit.piece.joints[1].notCut);
  EXPECT_FALSE(fit.piece.parts[0].featuresOf(JointId(0)).empty());
  for (const PlacedPart& part : fit.piece.parts) {
    EXPECT_TRUE(part.featuresOf(JointId(1)).empty());
  }
  EXPECT_EQ(fit.solids.size(), 3U);
}

TEST(AJointThatCannotBeCut, IsAnErrorThatNamesTheEndTheDistanceAndTheChange) {
  const auto found = findingsOfKind(fitOf(railShortBy(83)), FindingKind::notCut);
  ASSERT_THAT(found, SizeIs(1));
  EXPECT_EQ(found[0].severity, Severity::error);
  EXPECT_EQ(found[0].joint, JointId(1));
  EXPECT_NEAR(found[0].measured, 83, 1e-9);
  EXPECT_EQ(found[0].text, "Joint far cannot be cut: the right of rail is 83 mm from right.");
  EXPECT_EQ(found[0].mend,
            "Make rail 83 mm longer at its right (\"to\" of its length), or move right that much "
            "nearer.");
}

TEST(AJointThatCannotBeCut, IsMendedByTheChangeThatItNames) {
  std::mt19937_64 random(test::seed());
  std::uniform_real_distribution<double> apart(50.5, 400);
  for (int i = 0; i < test::repetitions(20); ++i) {
    const double away = apart(random);
    const auto found = findingsOfKind(fitOf(railShortBy(away)), FindingKind::notCut);
    ASSERT_THAT(found, SizeIs(1)) << away;
    EXPECT_NEAR(found[0].measured, away, 1e-9);
    EXPECT_TRUE(
        findingsOfKind(fitOf(railShortBy(away - found[0].measured)), FindingKind::notCut).empty());
  }
}

/// A post 40 deep and a rail that starts at its face, 20 thick from `y` on.
test::ModelText railAt(double y) {
  test::ModelText text;
  text.part("post", {"z", 0, 700}, {"x", 0, 60}, {"y", 0, 40});
  text.part("rail", {"x", 60, 400}, {"z", 500, 80}, {"y", y, 20});
  text.joint("corner", {{"kind", "blind-mortise-tenon"}, {"tenon", "rail"}, {"mortise", "post"}});
  return text;
}

TEST(AJointThatCannotBeCut, SaysHowFarToMoveAPartThatPassesByItsMate) {
  for (const double aside : {15.0, 3.0, -7.5}) {
    const auto found =
        findingsOfKind(fitOf(railAt(aside > 0 ? 40 + aside : aside - 20)), FindingKind::notCut);
    ASSERT_THAT(found, SizeIs(1)) << aside;
    EXPECT_NEAR(found[0].measured, std::fabs(aside), 1e-9);
    const std::string side = aside > 0 ? "front" : "back";
    EXPECT_THAT(found[0].mend, HasSubstr("towards its " + side)) << found[0].mend;
    // Moved so, and by the wood that the tenon needs, it can be cut.
    EXPECT_TRUE(findingsOfKind(fitOf(railAt(10)), FindingKind::notCut).empty());
  }
}

TEST(AJointThatCannotBeCut, NamesTheMemberOfAFrameThatDoesNotFit) {
  std::string text = cupboardText();
  const std::string rail = "\"width\": {\"along\": \"z\", \"from\": 0, \"size\": \"rail_width\"}";
  const auto at = text.find(rail);
  ASSERT_NE(at, std::string::npos);
  text.replace(at, rail.size(),
               "\"width\": {\"along\": \"z\", \"from\": -200, \"size\": \"rail_width\"}");
  const std::string panel = "\"from\": \"bottom_rail.top\"";
  text.replace(text.find(panel), panel.size(), "\"from\": 70");
  const auto found =
      findingsOfKind(fitOf(fileFrom(text).model(), Basis::drawn), FindingKind::notCut);
  ASSERT_FALSE(found.empty());
  const auto field = std::ranges::find_if(
      found, [](const Finding& f) { return f.text.starts_with("Joint field"); });
  ASSERT_NE(field, found.end());
  EXPECT_THAT(field->text, HasSubstr("from bottom rail"));
}

TEST(AJointThatCannotBeCut, TellsTheNumberThatHasNoRoom) {
  test::ModelText text = railShortBy(0);
  text.joint("far", {{"kind", "blind-mortise-tenon"},
                     {"tenon", "rail"},
                     {"mortise", "right"},
                     {"tenon_thickness", 55}});
  const auto found = findingsOfKind(fitOf(text), FindingKind::notCut);
  ASSERT_THAT(found, SizeIs(1));
  EXPECT_THAT(found[0].text, HasSubstr("Joint far cannot be cut"));
  EXPECT_FALSE(found[0].mend.empty());
}

TEST(AGapAtAFrame, NamesTheMemberThatStandsOff) {
  for (const auto& [part, says] :
       {std::pair("top_rail", "short of top rail"), {"bottom_rail", "short of bottom rail"}}) {
    std::string text = cupboardText();
    // The panel keeps its place; one rail moves 4 mm away from it.
    const std::string from = part == std::string("top_rail") ? "\"to\": \"top_rail.bottom\""
                                                             : "\"from\": \"bottom_rail.top\"";
    const std::string to = part == std::string("top_rail") ? "\"to\": \"top_rail.bottom - 4\""
                                                           : "\"from\": \"bottom_rail.top + 4\"";
    const auto at = text.find(from);
    ASSERT_NE(at, std::string::npos);
    text.replace(at, from.size(), to);
    const auto gaps = findingsOfKind(fitOf(fileFrom(text).model(), Basis::drawn), FindingKind::gap);
    ASSERT_THAT(gaps, SizeIs(1)) << part;
    EXPECT_THAT(gaps[0].text, HasSubstr(says));
    EXPECT_THAT(gaps[0].mend, HasSubstr("Make panel 4 mm longer"));
  }
}

}  // namespace
}  // namespace dryfit::joinery

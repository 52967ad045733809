// Mates meet where they carry.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>

#include "joinery/fit/dry_fit.h"
#include "tests/support/joint_bench.h"
#include "tests/support/joint_scenes.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::test {
namespace {

using joinery::Finding;
using joinery::FindingKind;
using joinery::Severity;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

std::vector<Finding> foundOf(const ModelText& text) {
  const auto fit = dryFitOf(text.json());
  return fit ? fit->findings : std::vector<Finding>{};
}

bool tellsOfMeeting(const Finding& f) {
  return f.text.find("too little to carry") != std::string::npos ||
         (f.kind == FindingKind::breakout && f.text.find(" past the ") != std::string::npos);
}

/// A leg 50 wide that leans by 8 degrees, its middle at `middle` along a foot 400 long.
ModelText legOnFoot(double middle, const char* kind) {
  ModelText text;
  text.part("leg", {"z", 60, 340}, {"x", middle - 25, 50}, {"y", 10, 30})
      .part("foot", {"x", 0, 400}, {"z", 0, 60}, {"y", 0, 50})
      .turn("leg", "y", {middle, 25, 60}, 8);
  if (std::string(kind) == "dowels") {
    text.joint("foot_joint", {{"kind", kind}, {"end", "leg"}, {"face", "foot"}});
  } else {
    text.joint("foot_joint", {{"kind", kind}, {"tenon", "leg"}, {"mortise", "foot"}});
  }
  return text;
}

TEST(Meeting, ALeaningLegThatMissesItsFootByNineIsFound) {
  for (const char* kind : {"blind-mortise-tenon", "through-mortise-tenon"}) {
    EXPECT_THAT(foundOf(legOnFoot(200, kind)), IsEmpty()) << kind;
    const auto found = foundOf(legOnFoot(400 - 25 + 9, kind));
    ASSERT_THAT(found, SizeIs(1)) << kind;
    EXPECT_EQ(found[0].kind, FindingKind::breakout);
    EXPECT_EQ(found[0].severity, Severity::error);
    EXPECT_THAT(found[0].text, HasSubstr("Leg stands "));
    EXPECT_THAT(found[0].text, HasSubstr(" past the right of foot"));
    EXPECT_NEAR(found[0].measured, -9, 0.5);
    EXPECT_THAT(found[0].mend, HasSubstr("Move leg "));
  }
}

TEST(Meeting, AMortiseMayBeOpenUnderATenonThatEndsWithIt) {
  ModelText text;
  text.part("rail", {"x", 60, 300}, {"z", 340, 60}, {"y", 0, 24})
      .part("post", {"z", 0, 400}, {"x", 0, 60}, {"y", 0, 24})
      .joint("corner", {{"kind", "through-mortise-tenon"},
                        {"tenon", "rail"},
                        {"mortise", "post"},
                        {"tenon_width", 60}});
  for (const Finding& f : foundOf(text)) EXPECT_FALSE(tellsOfMeeting(f)) << f.text;
}

TEST(Meeting, OverASliverCarriesNothing) {
  for (const double shared : {2.0, 15.0, 24.0, 60.0}) {
    ModelText text;
    text.part("rail", {"x", 60, 300}, {"z", 400 - shared, 60}, {"y", 0, 24})
        .part("post", {"z", 0, 400}, {"x", 0, 60}, {"y", 0, 24})
        .joint("glue", {{"kind", "butt"}, {"first", "rail"}, {"second", "post"}});
    const auto found = foundOf(text);
    const bool poor = shared < 20;
    EXPECT_EQ(std::ranges::count_if(found, tellsOfMeeting), poor ? 1 : 0) << shared;
  }
}

TEST(Meeting, OfSlatsThatCrossRailsIsFine) {
  ModelText text;
  text.part("rail", {"x", 0, 900}, {"z", 0, 60}, {"y", 0, 24})
      .part("slat", {"y", -200, 500}, {"x", 300, 70}, {"z", 60, 18})
      .joint("glue", {{"kind", "butt"}, {"first", "slat"}, {"second", "rail"}});
  for (const Finding& f : foundOf(text)) EXPECT_FALSE(tellsOfMeeting(f)) << f.text;
}

TEST(Meeting, OfRandomPiecesThatMeetIsNotComplainedOf) {
  std::mt19937_64 random(seed());
  int pieces = 0;
  for (int i = 0; i < repetitions(60); ++i) {
    for (const std::string& kind : sceneKinds()) {
      const JointScene scene = randomScene(kind, random);
      ++pieces;
      for (const Finding& f : foundOf(scene.text)) {
        EXPECT_FALSE(tellsOfMeeting(f)) << f.text << "\n" << scene.text.json().dump(2);
      }
      if (HasFailure()) return;
    }
  }
  EXPECT_GT(pieces, 0);
}

}  // namespace
}  // namespace dryfit::test

// Housings, rebates, laps, dowels, tongues and plain contacts: closed forms and defaults; and what
// is said of joints that cannot be.

#include <gtest/gtest.h>

#include <numbers>
#include <set>

#include "joinery/joints/joint_kind.h"
#include "joinery/joints/joint_kinds.h"
#include "tests/support/joint_bench.h"

namespace dryfit::test {
namespace {

using joinery::Piece;
using joinery::Purpose;
using nlohmann::ordered_json;

ModelText shelf(ordered_json joint, double shelfFrom = 0) {
  joint["shelf"] = "shelf";
  joint["side"] = "side";
  ModelText text;
  text.part("side", {"z", 0, 600}, {"y", 0, 200}, {"x", 0, 18})
      .part("shelf", {"x", 18, 400}, {"y", shelfFrom, 200 - shelfFrom}, {"z", 300, 20})
      .joint("housing", joint);
  return text;
}

double taken(const Piece& piece, const std::string& name) {
  const auto& part = partNamed(piece, name);
  return part.blank().volume() - solidOf(part).volume();
}

TEST(ThroughHousing, TakesAThirdOfTheSide) {
  const Piece piece = pieceOf(shelf({{"kind", "through-housing"}}));
  EXPECT_NEAR(taken(piece, "side"), 6 * 200 * 20.1, 1e-6);
  EXPECT_NEAR(-taken(piece, "shelf"), 6 * 200 * 20.0, 1e-6);
}

TEST(ThroughHousing, EndsWithANarrowerShelfSoThatNoSlotShowsBesideIt) {
  const Piece piece = pieceOf(shelf({{"kind", "through-housing"}}, 30));
  EXPECT_NEAR(taken(piece, "side"), 6 * 170 * 20.1, 1e-6);
  const auto& side = partNamed(piece, "side");
  EXPECT_TRUE(featureOf(side, Purpose::housing).stopped);
  EXPECT_NEAR(boundsOf(side.frame, featureOf(side, Purpose::housing).extent).min.y, 30, 1e-9);
}

TEST(StoppedHousing, OfARailInAWideSideIsNoLongerThanTheRail) {
  ModelText text;
  text.part("side", {"z", 0, 600}, {"y", 0, 620}, {"x", 0, 18})
      .part("shelf", {"x", 18, 400}, {"y", 0, 60}, {"z", 300, 20})
      .joint("housing", {{"kind", "stopped-housing"}, {"shelf", "shelf"}, {"side", "side"}});
  const Piece piece = pieceOf(text);
  EXPECT_NEAR(taken(piece, "side"), 6 * (60 - 15) * 20.1, 1e-6);
}

TEST(StoppedHousing, StopsShortOfTheFront) {
  const Piece piece = pieceOf(shelf({{"kind", "stopped-housing"}, {"stop", 12}}));
  EXPECT_NEAR(taken(piece, "side"), 6 * 188 * 20.1, 1e-6);
  EXPECT_NEAR(-taken(piece, "shelf"), 6 * 188 * 20.0, 1e-6);
  const auto& side = partNamed(piece, "side");
  const auto& housing = featureOf(side, Purpose::housing);
  EXPECT_TRUE(housing.stopped);
  EXPECT_NEAR(boundsOf(side.frame, housing.extent).min.y, 12, 1e-9);
  EXPECT_NEAR(boundsOf(side.frame, housing.extent).max.y, 200, 1e-9);
}

TEST(StoppedHousing, StopsAtTheFaceItIsGiven) {
  const Piece piece =
      pieceOf(shelf({{"kind", "stopped-housing"}, {"stop", 12}, {"stop_face", "back"}}));
  const auto& side = partNamed(piece, "side");
  EXPECT_NEAR(boundsOf(side.frame, featureOf(side, Purpose::housing).extent).max.y, 188, 1e-9);
}

TEST(Rebate, LetsABackInFlush) {
  ModelText text;
  text.part("side", {"z", 0, 600}, {"y", 0, 200}, {"x", 0, 18})
      .part("back", {"z", 0, 600}, {"x", 18, 400}, {"y", 194, 6})
      .joint("back", {{"kind", "rebate"}, {"inset", "back"}, {"rebated", "side"}});
  const Piece piece = pieceOf(text);
  EXPECT_NEAR(taken(piece, "side"), 9 * 6 * 600.0, 1e-6);
  EXPECT_NEAR(-taken(piece, "back"), 9 * 6 * 600.0, 1e-6);
  EXPECT_NEAR(piece.joints.front().homeDirection.y, -1, 1e-12);  // drops in from the back
}

TEST(Rebate, IsOpenToTheFaceItIsGiven) {
  ModelText text;
  text.part("side", {"z", 0, 600}, {"y", 0, 200}, {"x", 0, 18})
      .part("back", {"z", 0, 600}, {"x", 18, 400}, {"y", 180, 6})
      .joint("back", {{"kind", "rebate"},
                      {"inset", "back"},
                      {"rebated", "side"},
                      {"depth", 5},
                      {"open_face", "back"}});
  EXPECT_NEAR(taken(pieceOf(text), "side"), 5 * 20 * 600.0, 1e-6);
}

// Fairham, "Woodwork Joints": in halving, half the thickness goes from each.
TEST(HalfLap, TakesHalfFromEach) {
  ModelText text;
  text.part("over", {"x", -100, 200}, {"y", -20, 40}, {"z", 0, 24})
      .part("under", {"y", -100, 200}, {"x", -25, 50}, {"z", 0, 24})
      .joint("cross", {{"kind", "half-lap"}, {"over", "over"}, {"under", "under"}, {"fit", 0}});
  const Piece piece = pieceOf(text);
  EXPECT_NEAR(taken(piece, "over"), 40 * 50 * 12.0, 1e-6);
  EXPECT_NEAR(taken(piece, "under"), 40 * 50 * 12.0, 1e-6);
  EXPECT_NEAR(piece.joints.front().homeDirection.z, -1, 1e-12);
}

TEST(HalfLap, CornerLeavesTheOutlineOfTheTwoBlanks) {
  ModelText text;
  text.part("over", {"x", 0, 200}, {"y", 0, 40}, {"z", 0, 24})
      .part("under", {"y", 0, 200}, {"x", 0, 40}, {"z", 0, 24})
      .joint("corner", {{"kind", "half-lap"}, {"over", "over"}, {"under", "under"}, {"depth", 10}});
  const Piece piece = pieceOf(text);
  EXPECT_NEAR(taken(piece, "over"), 40 * 40.05 * 10, 1e-6);
  EXPECT_NEAR(taken(piece, "under"), 40 * 40.05 * 14, 1e-6);
}

TEST(HalfLap, PartsOnEdgeAreLappedThroughTheirWidth) {
  ModelText text;
  text.part("over", {"x", -100, 200}, {"z", 0, 80}, {"y", -9, 18})
      .part("under", {"y", -100, 200}, {"z", 0, 80}, {"x", -9, 18})
      .joint("cross", {{"kind", "half-lap"}, {"over", "over"}, {"under", "under"}, {"fit", 0}});
  EXPECT_NEAR(taken(pieceOf(text), "over"), 18 * 18 * 40.0, 1e-6);
}

TEST(Dowels, BoreBothMatesAlike) {
  ModelText text;
  text.part("stile", {"z", 0, 400}, {"x", 0, 58}, {"y", 0, 22})
      .part("rail", {"x", 58, 300}, {"z", 342, 58}, {"y", 0, 22})
      .joint("dowels", {{"kind", "dowels"},
                        {"end", "rail"},
                        {"face", "stile"},
                        {"diameter", 8},
                        {"depth", 20},
                        {"count", 2}});
  const Piece piece = pieceOf(text);
  const double holes = 2 * std::numbers::pi * 16 * 21;
  EXPECT_NEAR(taken(piece, "rail"), holes, 1e-6);
  EXPECT_NEAR(taken(piece, "stile"), holes, 1e-6);
  ASSERT_EQ(piece.joints.front().hardware.size(), 1U);
  EXPECT_EQ(piece.joints.front().hardware.front().count, 2);
  EXPECT_EQ(piece.joints.front().hardware.front().name, "dowel 8 x 40 mm");
}

TEST(Dowels, StandInLineInBothMates) {
  ModelText text;
  text.part("stile", {"z", 0, 400}, {"x", 0, 58}, {"y", 0, 22})
      .part("rail", {"x", 58, 300}, {"z", 342, 58}, {"y", 0, 22})
      .joint("dowels", {{"kind", "dowels"}, {"end", "rail"}, {"face", "stile"}});
  const Piece piece = pieceOf(text);
  const auto centresOf = [&](const std::string& name) {
    std::vector<kernel::Point3> centres;
    const auto& part = partNamed(piece, name);
    for (const auto& f : part.features) {
      centres.push_back(boundsOf(part.frame, f.extent).centre());
    }
    return centres;
  };
  const auto rail = centresOf("rail");
  const auto stile = centresOf("stile");
  ASSERT_EQ(rail.size(), stile.size());
  for (std::size_t i = 0; i < rail.size(); ++i) {
    EXPECT_NEAR(rail[i].y, stile[i].y, 1e-9);
    EXPECT_NEAR(rail[i].z, stile[i].z, 1e-9);
    EXPECT_NEAR((rail[i].x + stile[i].x) / 2, 58, 1e-9);
  }
}

TEST(TongueAndGroove, RunsTheFullLength) {
  ModelText text;
  text.part("one", {"x", 0, 500}, {"y", 0, 100}, {"z", 0, 20})
      .part("two", {"x", 0, 500}, {"y", 100, 100}, {"z", 0, 20})
      .joint("edge", {{"kind", "tongue-groove"}, {"tongue", "one"}, {"groove", "two"}});
  const Piece piece = pieceOf(text);
  const auto& joint = piece.joints.front();
  const double thickness = valueOf(joint, "tongue thickness");
  const double length = valueOf(joint, "tongue length");
  EXPECT_EQ(thickness, 6);
  EXPECT_NEAR(-taken(piece, "one"), 500 * (thickness - joint.fit) * length, 1e-6);
  EXPECT_NEAR(taken(piece, "two"), 500 * thickness * (length + valueOf(joint, "bottom clearance")),
              1e-6);
}

TEST(PlainContacts, CutNothingAndStateTheGap) {
  for (const char* kind : {"edge-joint", "butt"}) {
    ModelText text;
    text.part("one", {"x", 0, 500}, {"y", 0, 100}, {"z", 0, 20})
        .part("two", {"x", 0, 500}, {"y", 101.5, 100}, {"z", 0, 20})
        .joint("edge", {{"kind", kind}, {"first", "one"}, {"second", "two"}});
    const Piece piece = pieceOf(text);
    EXPECT_NEAR(piece.joints.front().gap, 1.5, 1e-9);
    EXPECT_EQ(piece.joints.front().glued, std::string(kind) == "edge-joint");
    for (const auto& part : piece.parts) EXPECT_TRUE(part.features.empty());
  }
}

TEST(JointKinds, HaveNoKeyTwice) {
  for (const auto& kind : joinery::jointKinds()) {
    std::set<std::string_view> keys{"kind", "note"};
    for (const auto& role : kind->roles()) EXPECT_TRUE(keys.insert(role.name).second);
    for (const auto& p : kind->parameters()) {
      EXPECT_TRUE(keys.insert(p.name).second) << kind->name() << " " << p.name;
      EXPECT_EQ(p.words.empty(), p.type != joinery::Parameter::Type::word);
      EXPECT_FALSE(p.meaning.empty());
    }
    EXPECT_EQ(joinery::jointKindNamed(kind->name()), kind.get());
  }
  EXPECT_EQ(joinery::jointKindNamed("glue-and-hope"), nullptr);
}

TEST(Joints, ThatCannotMeetAreRefused) {
  ModelText text;
  text.part("stile", {"z", 0, 400}, {"x", 0, 58}, {"y", 0, 22})
      .part("rail", {"x", 200, 300}, {"z", 342, 58}, {"y", 0, 22})
      .joint("corner", {{"kind", "blind-mortise-tenon"}, {"tenon", "rail"}, {"mortise", "stile"}});
  const Error error = errorOf(text);
  EXPECT_EQ(error.code, ErrorCode::matesApart);
  EXPECT_EQ(error.where, "joints.corner");
  EXPECT_FALSE(error.mend.empty());
}

TEST(Joints, WithNumbersThatCannotBeNameTheNumber) {
  ModelText text;
  text.part("side", {"z", 0, 600}, {"y", 0, 200}, {"x", 0, 18})
      .part("shelf", {"x", 18, 400}, {"y", 0, 200}, {"z", 300, 20})
      .joint("housing", {{"kind", "stopped-housing"},
                         {"shelf", "shelf"},
                         {"side", "side"},
                         {"stop_face", "top"}});
  EXPECT_EQ(errorOf(text).where, "joints.housing: stop_face");
  EXPECT_EQ(errorOf(text).code, ErrorCode::faceUnfit);
}

}  // namespace
}  // namespace dryfit::test

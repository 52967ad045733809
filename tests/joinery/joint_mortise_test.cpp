// Mortise and tenon: closed forms, published proportions, and both halves from one set of numbers.

#include <gtest/gtest.h>

#include "joinery/trade/rules.h"
#include "tests/support/joint_bench.h"

namespace dryfit::test {
namespace {

using joinery::Feature;
using joinery::LocalFace;
using joinery::Piece;
using joinery::PlacedJoint;
using joinery::Purpose;
using nlohmann::ordered_json;

/// A rail 22 thick and 58 wide against a stile of the same section, flush at the top.
ModelText corner(ordered_json joint) {
  joint["tenon"] = "rail";
  joint["mortise"] = "stile";
  ModelText text;
  text.part("stile", {"z", 0, 400}, {"x", 0, 58}, {"y", 0, 22})
      .part("rail", {"x", "stile.right", 300}, {"z", 342, 58}, {"y", 0, 22})
      .joint("corner", joint);
  return text;
}

double addedTo(const Piece& piece, const std::string& name) {
  const auto& part = partNamed(piece, name);
  return solidOf(part).volume() - part.blank().volume();
}

TEST(MortiseAndTenon, AddsTheTenonAndTakesAwayTheMortise) {
  const Piece piece = pieceOf(corner({{"kind", "blind-mortise-tenon"},
                                      {"tenon_thickness", 8},
                                      {"tenon_width", 40},
                                      {"tenon_length", 30},
                                      {"fit", 0.2},
                                      {"bottom_clearance", 3}}));
  EXPECT_NEAR(addedTo(piece, "rail"), 7.8 * 40 * 30, 1e-6);
  EXPECT_NEAR(addedTo(piece, "stile"), -8.0 * 40 * 33, 1e-6);
}

TEST(MortiseAndTenon, PocketIsInsertAndClearances) {
  for (const char* kind :
       {"blind-mortise-tenon", "through-mortise-tenon", "haunched-mortise-tenon"}) {
    const Piece piece = pieceOf(corner({{"kind", kind}}));
    const auto& rail = partNamed(piece, "rail");
    const auto& stile = partNamed(piece, "stile");
    const kernel::Vec3 tenon = featureOf(rail, Purpose::tenon).extent.size();
    const kernel::Vec3 mortise = featureOf(stile, Purpose::mortise).extent.size();
    const PlacedJoint& joint = piece.joints.front();
    const bool blind = std::string(kind) != "through-mortise-tenon";
    const double bottom = blind ? valueOf(joint, "bottom clearance") : 0;
    // Lengthwise the tenon runs along the rail; the stile's own frame has its depth along width.
    EXPECT_NEAR(mortise.y, tenon.x + bottom, 1e-9);
    EXPECT_NEAR(mortise.x, tenon.y, 1e-9);
    EXPECT_NEAR(mortise.z, tenon.z + joint.fit, 1e-9);
  }
}

TEST(MortiseAndTenon, ATightFitIsSharedWood) {
  const Piece piece = pieceOf(corner({{"kind", "blind-mortise-tenon"},
                                      {"tenon_thickness", 8},
                                      {"tenon_width", 40},
                                      {"tenon_length", 30},
                                      {"fit", -0.3}}));
  std::string who;
  EXPECT_NEAR(sharedWood(piece, who), 0.3 * 40 * 30, 1e-6);
  EXPECT_LT(piece.joints.front().fit, piece.joints.front().fitMin);
}

TEST(MortiseAndTenon, BothHalvesFollowTheStilesFace) {
  ModelText wide = corner({{"kind", "blind-mortise-tenon"}, {"tenon_length", 30}});
  ModelText narrow;
  narrow.part("stile", {"z", 0, 400}, {"x", 0, 56.9}, {"y", 0, 22})
      .part("rail", {"x", "stile.right", 301.1}, {"z", 342, 58}, {"y", 0, 22})
      .joint("corner", wide.json()["joints"]["corner"]);
  const Piece before = pieceOf(wide);
  const Piece after = pieceOf(narrow);
  const auto inPiece = [](const Piece& piece, const std::string& part, Purpose purpose) {
    const auto& p = partNamed(piece, part);
    return boundsOf(p.frame, featureOf(p, purpose).extent);
  };
  for (const auto& [part, purpose] :
       {std::pair{"rail", Purpose::tenon}, std::pair{"stile", Purpose::mortise}}) {
    const kernel::Box3 was = inPiece(before, part, purpose);
    const kernel::Box3 is = inPiece(after, part, purpose);
    EXPECT_NEAR(was.min.x - is.min.x, 1.1, 1e-9) << part;
    EXPECT_NEAR(was.max.x - is.max.x, 1.1, 1e-9) << part;
    EXPECT_NEAR(was.size().z, is.size().z, 1e-9) << part;
  }
}

TEST(MortiseAndTenon, ATenonFollowsItsMortiseWhenTheParametersChange) {
  for (const double thickness : {6.0, 8.0, 10.0}) {
    const Piece piece =
        pieceOf(corner({{"kind", "blind-mortise-tenon"}, {"tenon_thickness", thickness}}));
    const auto& joint = piece.joints.front();
    EXPECT_NEAR(featureOf(partNamed(piece, "stile"), Purpose::mortise).extent.size().z, thickness,
                1e-9);
    EXPECT_NEAR(featureOf(partNamed(piece, "rail"), Purpose::tenon).extent.size().z,
                thickness - joint.fit, 1e-9);
  }
}

// woodmagazine.com and diyinfo.org: a third of the stock, set to the nearest cutter; length 1/2 to
// 2/3 of the mortised part's width; mortise 2 mm (1/16 in) deeper; at least 4.5 mm left behind it;
// width at most five times the thickness.
TEST(MortiseAndTenon, DefaultsKeepToThePublishedProportions) {
  for (double thickness = 15; thickness <= 50; thickness += 3.5) {
    for (double width = 30; width <= 120; width += 7.5) {
      ModelText text;
      text.part("stile", {"z", 0, 600}, {"x", 0, width}, {"y", 0, thickness})
          .part("rail", {"x", width, 300}, {"z", 200, width}, {"y", 0, thickness})
          .joint("corner",
                 {{"kind", "blind-mortise-tenon"}, {"tenon", "rail"}, {"mortise", "stile"}});
      const Piece piece = pieceOf(text);
      const PlacedJoint& joint = piece.joints.front();
      const double tenon = valueOf(joint, "tenon thickness");
      const double length = valueOf(joint, "tenon length");
      EXPECT_NEAR(tenon, thickness / 3, 2) << thickness;  // half of the step from 12 to 16
      EXPECT_LE(tenon, thickness / 2);
      EXPECT_GE(length, width / 2 - 0.5) << width;
      EXPECT_LE(length, width * 2 / 3);
      EXPECT_NEAR(valueOf(joint, "mortise depth"), length + 2, 1e-9);
      EXPECT_GE(width - valueOf(joint, "mortise depth"), 4.5);
      EXPECT_LE(valueOf(joint, "tenon width"), 5 * tenon);
    }
  }
}

// diyinfo.org: the rail's width in three, two for the tenon and one for the haunch.
TEST(HaunchedTenon, SharesTheRailsWidthInThree) {
  for (double width = 30; width <= 60; width += 3) {
    ModelText text;
    text.part("stile", {"z", 0, 600}, {"x", 0, 60}, {"y", 0, 40})
        .part("rail", {"x", 60, 300}, {"z", 600 - width, width}, {"y", 0, 40})
        .joint("corner",
               {{"kind", "haunched-mortise-tenon"}, {"tenon", "rail"}, {"mortise", "stile"}});
    const PlacedJoint joint = pieceOf(text).joints.front();
    EXPECT_NEAR(valueOf(joint, "tenon width"), width * 2 / 3, 0.5);
    EXPECT_NEAR(valueOf(joint, "haunch width"), width / 3, 0.5);
  }
}

// Noyes, "Handwork in Wood", ch. VII: the haunch is left full, out to the rail's edge.
TEST(HaunchedTenon, HasItsHaunchOnTheOuterSideAndTheSocketOpen) {
  const Piece piece = pieceOf(corner({{"kind", "haunched-mortise-tenon"}}));
  const auto& rail = partNamed(piece, "rail");
  const auto& stile = partNamed(piece, "stile");
  EXPECT_NEAR(featureOf(rail, Purpose::haunch).extent.max.y, 58, 1e-9);
  EXPECT_NEAR(featureOf(rail, Purpose::haunch).extent.min.y,
              featureOf(rail, Purpose::tenon).extent.max.y, 1e-9);
  const Feature& socket = featureOf(stile, Purpose::haunchSocket);
  EXPECT_NEAR(socket.extent.max.x, 400, 1e-9);
  EXPECT_GT(boundsOf(socket.tool).max.x, 400);  // no skin left at the end of the stile
}

TEST(HaunchedTenon, TakesTheSideItIsGiven) {
  const Piece piece = pieceOf(corner({{"kind", "haunched-mortise-tenon"}, {"haunch", "bottom"}}));
  const auto& rail = partNamed(piece, "rail");
  EXPECT_NEAR(featureOf(rail, Purpose::haunch).extent.min.y, 0, 1e-9);
}

TEST(ThroughTenon, ComesOutOnTheFarSide) {
  const Piece flush = pieceOf(corner({{"kind", "through-mortise-tenon"}}));
  const Piece proud = pieceOf(corner({{"kind", "through-mortise-tenon"}, {"protrusion", 4}}));
  EXPECT_NEAR(valueOf(flush.joints.front(), "tenon length"), 58, 1e-9);
  EXPECT_NEAR(valueOf(proud.joints.front(), "tenon length"), 62, 1e-9);
  const auto& mortise = featureOf(partNamed(proud, "stile"), Purpose::mortise);
  EXPECT_TRUE(mortise.through);
  EXPECT_NEAR(mortise.extent.size().y, 58, 1e-9);
  EXPECT_GT(boundsOf(mortise.tool).size().y, 58);
  EXPECT_NEAR(addedTo(flush, "stile"), addedTo(proud, "stile"), 1e-6);
}

TEST(ThroughTenon, IsTrimmedToASlantingFace) {
  ModelText text = corner({{"kind", "through-mortise-tenon"}});
  text.turn("stile", "y", {58, 11, 371}, 6);
  const Piece piece = pieceOf(text);
  const auto& stile = partNamed(piece, "stile");
  const auto& rail = partNamed(piece, "rail");
  const kernel::Solid solid =
      solidOf(rail).placed(stile.frame.inverse().after(rail.frame));  // seen from the stile
  EXPECT_NEAR(solid.bounds().min.y, 0, 1e-6);                         // flush with the far face
}

TEST(MortiseAndTenon, ALeaningRailMeetsByItsEnd) {
  for (const double degrees : {-44, -30, -10, 10, 30, 44}) {
    ModelText text = corner({{"kind", "blind-mortise-tenon"}});
    text.turn("rail", "y", {58, 0, degrees > 0 ? 342.0 : 400.0}, degrees);
    const Piece piece = pieceOf(text);
    const Feature& tenon = featureOf(partNamed(piece, "rail"), Purpose::tenon);
    EXPECT_EQ(tenon.face, (LocalFace{0, false})) << degrees;
  }
}

TEST(MortiseAndTenon, ARailThatLeansTooFarMeetsNothing) {
  ModelText text = corner({{"kind", "blind-mortise-tenon"}});
  text.turn("rail", "y", {58, 0, 342}, 50);
  EXPECT_EQ(errorOf(text).code, ErrorCode::matesApart);
}

TEST(Shoulders, SetTheTenonBackOnTheirSide) {
  const Piece piece = pieceOf(corner({{"kind", "blind-mortise-tenon"},
                                      {"shoulder_top", 20},
                                      {"shoulder_bottom", 4},
                                      {"shoulder_front", 6},
                                      {"tenon_thickness", 8}}));
  const auto& rail = partNamed(piece, "rail");
  const kernel::Box3 tenon = boundsOf(rail.frame, featureOf(rail, Purpose::tenon).extent);
  EXPECT_NEAR(tenon.max.z, 400 - 20, 1e-9);
  EXPECT_NEAR(tenon.min.z, 342 + 4, 1e-9);
  // From the face side both are set out alike; the fit is taken off the other cheek.
  EXPECT_NEAR(tenon.min.y, 6, 1e-9);
  EXPECT_NEAR(tenon.max.y, 14 - 0.1, 1e-9);
}

TEST(Offset, MovesTheTenonTowardsTheFarSide) {
  const Piece piece = pieceOf(corner({{"kind", "blind-mortise-tenon"}, {"offset", 2}}));
  const auto& rail = partNamed(piece, "rail");
  const auto& stile = partNamed(piece, "stile");
  EXPECT_NEAR(boundsOf(rail.frame, featureOf(rail, Purpose::tenon).extent).centre().y, 13 - 0.05,
              1e-9);
  EXPECT_NEAR(boundsOf(stile.frame, featureOf(stile, Purpose::mortise).extent).centre().y, 13,
              1e-9);
}

TEST(BarefacedTenon, HasAllItsPlayOnTheShoulderedCheek) {
  const Piece piece = pieceOf(
      corner({{"kind", "blind-mortise-tenon"}, {"shoulder_front", 0}, {"tenon_thickness", 12}}));
  const auto& rail = partNamed(piece, "rail");
  const kernel::Box3 tenon = boundsOf(rail.frame, featureOf(rail, Purpose::tenon).extent);
  EXPECT_NEAR(tenon.min.y, 0, 1e-9);
  EXPECT_NEAR(tenon.max.y, 12 - 0.1, 1e-9);
}

TEST(MortiseAndTenon, SaysWhichNumbersItsAuthorChose) {
  const Piece piece = pieceOf(corner({{"kind", "blind-mortise-tenon"}, {"tenon_length", 25}}));
  for (const auto& value : piece.joints.front().values) {
    if (value.name == "tenon length") {
      EXPECT_TRUE(value.given);
      EXPECT_TRUE(value.source.empty());
    }
    if (value.name == "tenon thickness" || value.name == "fit") {
      EXPECT_FALSE(value.given);
      EXPECT_FALSE(value.source.empty()) << value.name;
    }
  }
}

TEST(MortiseAndTenon, SaysWhatIsWrongWithNumbersThatLeaveNoWood) {
  const auto refused = [](ordered_json joint, ErrorCode code) {
    joint["kind"] = "blind-mortise-tenon";
    const Error error = errorOf(corner(joint));
    EXPECT_EQ(error.code, code) << error.line();
    EXPECT_TRUE(isJointError(error.code));
    EXPECT_TRUE(error.where.starts_with("joints.corner")) << error.line();
  };
  refused({{"tenon_length", 0}}, ErrorCode::numberTooSmall);
  refused({{"tenon_thickness", 30}}, ErrorCode::jointOutgrowsPart);
  refused({{"tenon_width", 70}}, ErrorCode::jointOutgrowsPart);
  refused({{"shoulder_top", 30}, {"shoulder_bottom", 30}}, ErrorCode::jointOutgrowsPart);
  refused({{"shoulder_top", 10}, {"shoulder_bottom", 10}, {"tenon_width", 30}},
          ErrorCode::numbersDisagree);
  refused({{"offset", 9}}, ErrorCode::jointOutgrowsPart);
  refused({{"fit", 8}}, ErrorCode::jointLeavesNothing);
  refused({{"bottom_clearance", -1}}, ErrorCode::numberTooSmall);
}

TEST(MortiseAndTenon, SaysThatTheFitIsTooGreat) {
  for (const char* kind : {"blind-mortise-tenon", "haunched-mortise-tenon"}) {
    EXPECT_EQ(errorOf(corner({{"kind", kind}, {"fit", 30}})).where, "joints.corner: fit");
  }
}

}  // namespace
}  // namespace dryfit::test

// What a joiner sets out by the rules: both halves of a joint from one line, haunches that fill
// their sockets, panels and backs with room.

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <random>

#include "tests/support/joint_bench.h"
#include "tests/support/joint_scenes.h"
#include "tests/support/meetings.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::test {
namespace {

using joinery::Feature;
using joinery::Piece;
using joinery::PlacedJoint;
using joinery::PlacedPart;
using joinery::Purpose;
using joinery::Stage;

/// The two walls of a pocket or cheeks of an insert along an axis of the first mate, in its frame.
std::array<double, 2> cheeks(const PlacedPart& first, const PlacedPart& part, const Feature& f,
                             int axis) {
  const kernel::Box3 here = kernel::boundsOf(first.frame.inverse().after(part.frame), f.extent);
  return {here.min[axis], here.max[axis]};
}

TEST(OneLine, BothHalvesStandAlikeFromTheFaceSideAndTheFitIsAtTheOtherCheek) {
  std::mt19937_64 random(seed());
  int joints = 0;
  for (int i = 0; i < repetitions(100); ++i) {
    for (const char* kind : {"blind-mortise-tenon", "haunched-mortise-tenon", "tongue-groove",
                             "through-housing", "stopped-housing"}) {
      const Piece piece = pieceOf(randomScene(kind, random).text);
      const PlacedJoint& joint = piece.joints.front();
      if (!joint.sharedPlay) continue;
      ++joints;
      const PlacedPart& first = piece.parts[joint.mates[0].index()];
      const PlacedPart& second = piece.parts[joint.mates[1].index()];
      const int axis = joint.sharedPlay->axis;
      const auto mark = first.faceSide.axis == axis ? first.faceSide : first.faceEdge;
      const auto insert = std::ranges::find(first.features, Stage::insert, &Feature::stage);
      const auto pocket = std::ranges::find(second.features, Stage::cut, &Feature::stage);
      ASSERT_NE(insert, first.features.end()) << kind;
      ASSERT_NE(pocket, second.features.end()) << kind;
      const auto in = cheeks(first, first, *insert, axis);
      const auto out = cheeks(first, second, *pocket, axis);
      const std::size_t near = mark.far ? 1 : 0, away = 1 - near;
      EXPECT_NEAR(in[near], out[near], 1e-9) << kind << ", seed " << seed() << ", round " << i;
      EXPECT_NEAR(std::fabs(in[away] - out[away]), joint.fit, 1e-9) << kind;
    }
  }
  EXPECT_GT(joints, repetitions(100) * 2);
}

TEST(OneLine, TheRoomInAHousingIsAtTheFaceOppositeTheMark) {
  ModelText text;
  text.part("side", {"z", 0, 600}, {"y", 0, 200}, {"x", 0, 18})
      .part("shelf", {"x", 18, 400}, {"y", 0, 200}, {"z", 300, 20})
      .joint("housing", {{"kind", "through-housing"}, {"shelf", "shelf"}, {"side", "side"}});
  const Piece piece = pieceOf(text);
  const PlacedPart& side = partNamed(piece, "side");
  const kernel::Box3 housing = boundsOf(side.frame, featureOf(side, Purpose::housing).extent);
  // The face side of the shelf is its lower face.
  EXPECT_NEAR(housing.min.z, 300, 1e-9);
  EXPECT_NEAR(housing.max.z, 320.1, 1e-9);
}

/// A frame of 24 stock round a panel of 7, its top rail haunched into the left stile.
Piece groovedFrame() {
  ModelText text;
  text.part("left", {"z", -60, 620}, {"x", -60, 60}, {"y", 0, 24})
      .part("right", {"z", -60, 620}, {"x", 300, 60}, {"y", 0, 24})
      .part("top", {"x", 0, 300}, {"z", 500, 60}, {"y", 0, 24})
      .part("bottom", {"x", 0, 300}, {"z", -60, 60}, {"y", 0, 24})
      .part("panel", {"z", 0, 500}, {"x", 0, 300}, {"y", 8, 7})
      .joint("panel", {{"kind", "panel-groove"},
                       {"panel", "panel"},
                       {"frame", {"left", "right", "top", "bottom"}}})
      .joint("corner", {{"kind", "haunched-mortise-tenon"}, {"tenon", "top"}, {"mortise", "left"}});
  return pieceOf(text);
}

// The groove is ploughed through and the haunch fills it (common practice).
TEST(Haunch, FillsItsSocketAndInAGroovedFrameTheGroove) {
  const Piece piece = groovedFrame();
  const PlacedPart& rail = partNamed(piece, "top");
  const PlacedPart& stile = partNamed(piece, "left");
  const Feature& haunch = featureOf(rail, Purpose::haunch);
  const Feature& socket = featureOf(stile, Purpose::haunchSocket);
  const Feature& groove = featureOf(stile, Purpose::groove);
  const Feature& mortise = featureOf(stile, Purpose::mortise);
  EXPECT_NEAR(haunch.extent.size()[haunch.face.axis], socket.extent.size()[socket.face.axis], 1e-9);
  EXPECT_NEAR(socket.extent.size()[socket.face.axis], groove.extent.size()[groove.face.axis], 1e-9);
  // Mortise, socket and groove are in line, none of them narrower than the groove.
  for (const Feature* cut : {&mortise, &socket}) {
    EXPECT_LE(cut->extent.min.z, groove.extent.min.z + 1e-9);
    EXPECT_GE(cut->extent.max.z, groove.extent.max.z - 1e-9);
    EXPECT_NEAR(cut->extent.centre().z, groove.extent.centre().z, 1e-9);
  }
  std::string who;
  EXPECT_NEAR(sharedWood(piece, who), 0, 1e-6) << who;
}

TEST(Haunch, FillsItsSocketInAPlainFrameToo) {
  std::mt19937_64 random(seed());
  for (int i = 0; i < repetitions(30); ++i) {
    const Piece piece = pieceOf(randomScene("haunched-mortise-tenon", random).text);
    const Feature& haunch = featureOf(partNamed(piece, "rail"), Purpose::haunch);
    const Feature& socket = featureOf(partNamed(piece, "stile"), Purpose::haunchSocket);
    EXPECT_NEAR(haunch.extent.size()[haunch.face.axis], socket.extent.size()[socket.face.axis],
                1e-9);
  }
}

// Wood Handbook, Eq. 13-2: a panel of flat-sawn white oak 300 wide moves 4.4 mm from 8 to 12 %: 2.2
// a side.
TEST(WorkedPanel, CanSwellAtItsShouldersAsMuchAsInItsGrooves) {
  constexpr double kSwells = 300 * 0.00365 * 4 / 2;
  for (const double thickness : {12.0, 16.0, 20.0, 24.0}) {
    ModelText text;
    text.part("left", {"z", -60, 620}, {"x", -60, 60}, {"y", 0, 24})
        .part("right", {"z", -60, 620}, {"x", 300, 60}, {"y", 0, 24})
        .part("panel", {"z", 0, 500}, {"x", 0, 300}, {"y", 12 - thickness / 2, thickness})
        .joint("panel",
               {{"kind", "panel-groove"}, {"panel", "panel"}, {"frame", {"left", "right"}}});
    const Piece piece = pieceOf(text);
    const kernel::Solid panel = solidOf(partNamed(piece, "panel"));
    const PlacedPart& part = partNamed(piece, "panel");
    // A stick against either face of the panel, from stile to stile, meets wood only within.
    for (const double face : {0.02, thickness - 0.02}) {
      const kernel::Box3 stick{{200, -100, face - 0.01}, {201, 400, face + 0.01}};
      const auto wood = kernel::overlap(panel, *kernel::makeBox(stick));
      ASSERT_TRUE(wood);
      EXPECT_GE(wood->bounds.min.y, kSwells) << thickness;
      EXPECT_LE(wood->bounds.max.y, 300 - kSwells) << thickness;
    }
    // And the edges still reach into the grooves.
    const double groove = valueOf(piece.joints.front(), "groove depth");
    EXPECT_NEAR(part.overall().size().y, 300 + 2 * (groove - 2.5), 1e-9);
  }
}

TEST(WorkedPanel, StandsOffItsFrameAsItsAuthorSays) {
  ModelText text;
  text.part("left", {"z", 0, 500}, {"x", -60, 60}, {"y", 0, 24})
      .part("panel", {"z", 0, 500}, {"x", 0, 300}, {"y", 4, 16})
      .joint(
          "panel",
          {{"kind", "panel-groove"}, {"panel", "panel"}, {"frame", "left"}, {"shoulder_gap", 0}});
  const Piece piece = pieceOf(text);
  const auto& features = partNamed(piece, "panel").features;
  EXPECT_TRUE(
      std::ranges::none_of(features, [](const Feature& f) { return f.stage == Stage::shape; }));
}

TEST(Rebate, LetsABackDropInBetweenTwoSidesWithRoom) {
  ModelText text;
  text.part("left", {"z", 0, 600}, {"y", 0, 200}, {"x", -18, 18})
      .part("right", {"z", 0, 600}, {"y", 0, 200}, {"x", 400, 18})
      .part("back", {"z", 0, 600}, {"x", 0, 400}, {"y", 194, 6})
      .joint("back", {{"kind", "rebate"}, {"inset", "back"}, {"rebated", {"left", "right"}}});
  const Piece piece = pieceOf(text);
  const double between = 2 * featureOf(partNamed(piece, "left"), Purpose::rebate).extent.size().z;
  const double back = partNamed(piece, "back").overall().size().y;
  EXPECT_NEAR(between, 2 * 9, 1e-9);  // half of each side
  EXPECT_NEAR(back, 400 + 2 * 9 - 2 * 0.5, 1e-9);
}

// Rods are sold in these diameters (chicagodowel.com, technical information: 5 to 12 mm).
TEST(Dowels, AreOfASizeThatIsSoldAndAThirdToHalfOfTheStock) {
  for (double stock = 10; stock <= 40; stock += 0.5) {
    const MeetingSizes sizes{stock, 90, std::max(stock, 18.0), 60};
    const auto& ways = meetingWays();
    const auto way = std::ranges::find(ways, "a shelf in a side", &MeetingWay::name);
    const Piece piece = pieceOf(meeting(*way, "dowels", sizes));
    const double diameter = valueOf(piece.joints.front(), "diameter");
    const std::array<double, 5> sold{5, 6, 8, 10, 12};
    EXPECT_NE(std::ranges::find(sold, diameter), sold.end()) << stock;
    EXPECT_LE(diameter, stock / 2) << stock;
    EXPECT_GE(diameter, std::fmin(stock / 3 - 1, 12)) << stock;
  }
}

}  // namespace
}  // namespace dryfit::test

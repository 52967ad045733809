// What the drawing of leaning work says is what can be knifed and gauged on the wood itself.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>
#include <random>

#include "export/drawing/feature_rows.h"
#include "export/drawing/leaning_cut.h"
#include "joinery/piece/true_lengths.h"
#include "kernel/solid.h"
#include "tests/support/joint_bench.h"
#include "tests/support/joint_scenes.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::test {
namespace {

using joinery::Feature;
using joinery::Piece;
using joinery::PlacedPart;
using joinery::Purpose;

/// A leg 50 wide that leans by `degrees` on a foot 60 high, tenoned into it.
Piece leaningLeg(double degrees, const char* kind = "blind-mortise-tenon") {
  ModelText text;
  text.part("leg", {"z", 60, 340}, {"x", 175, 50}, {"y", 10, 30})
      .part("foot", {"x", 0, 400}, {"z", 0, 60}, {"y", 0, 50})
      .joint("in_foot", {{"kind", kind}, {"tenon", "leg"}, {"mortise", "foot"}})
      .turn("leg", "y", {200, 25, 60}, degrees);
  return pieceOf(text);
}

const Feature& mortiseOf(const Piece& piece, const char* part) {
  return featureOf(partNamed(piece, part), Purpose::mortise);
}

// By the right triangle: a tenon w wide at an angle a opens w / cos a, and the walls at its two
// edges differ by w tan a.
TEST(LeaningCut, OpensWiderThanItsTenonAndIsDeeperAtOneWall) {
  for (const double degrees : {-14.0, -3.0, 6.0, 20.0}) {
    const Piece piece = leaningLeg(degrees);
    const auto cut = exporting::leaningCut(partNamed(piece, "foot"), mortiseOf(piece, "foot"));
    ASSERT_TRUE(cut) << degrees;
    const double wide = valueOf(piece.joints.front(), "tenon width");
    const double a = degrees * std::numbers::pi / 180;
    EXPECT_NEAR(cut->opening.size().x, wide / std::cos(a), 1e-6);
    EXPECT_NEAR(std::fabs(cut->walls[0] - cut->walls[1]), wide * std::fabs(std::tan(a)), 1e-6);
    EXPECT_NEAR(std::fabs(cut->degrees), std::fabs(degrees), 1e-9);
    EXPECT_EQ(cut->axis, 0);
    EXPECT_FALSE(cut->exit);
  }
}

TEST(LeaningCut, OpensAtTwoPlacesWhereItGoesThrough) {
  const Piece piece = leaningLeg(8, "through-mortise-tenon");
  const auto cut = exporting::leaningCut(partNamed(piece, "foot"), mortiseOf(piece, "foot"));
  ASSERT_TRUE(cut && cut->exit);
  const double aside = 60 * std::tan(8 * std::numbers::pi / 180);
  EXPECT_NEAR(std::fabs(cut->exit->min.x - cut->opening.min.x), aside, 1e-6);
  EXPECT_NEAR(cut->exit->size().x, cut->opening.size().x, 1e-9);
}

TEST(LeaningCut, IsNotMadeOfSquareWork) {
  const Piece piece = leaningLeg(0);
  EXPECT_FALSE(exporting::leaningCut(partNamed(piece, "foot"), mortiseOf(piece, "foot")));
}

/// What has been cut out of the blank within a slice 0.02 thick under one face, in the part's
/// frame.
kernel::Box3 openInSolid(const PlacedPart& part, joinery::LocalFace face) {
  constexpr double kSlice = 0.02;
  kernel::Box3 slice = part.blank();
  const double plane = face.far ? part.size[face.axis] : 0;
  slice.min.set(face.axis, face.far ? plane - kSlice : plane);
  slice.max.set(face.axis, face.far ? plane : plane + kSlice);
  const auto waste = kernel::cut(*kernel::makeBox(slice), std::array{solidOf(part)});
  EXPECT_TRUE(waste) << waste.error().line();
  return waste ? waste->bounds() : kernel::Box3{};
}

TEST(LeaningCut, OpensWhereTheSolidDoesOnRandomPieces) {
  std::mt19937_64 random(seed());
  std::uniform_real_distribution<double> lean(-12, 12);
  int found = 0;
  for (int i = 0; i < repetitions(80); ++i) {
    for (const char* kind : {"blind-mortise-tenon", "through-mortise-tenon"}) {
      JointScene scene = randomScene(kind, random);
      scene.text.turn(scene.second, scene.slanting[i % scene.slanting.size()], scene.at,
                      lean(random));
      const Piece piece = pieceOf(scene.text);
      const PlacedPart& part = partNamed(piece, scene.second);
      const Feature& mortise = mortiseOf(piece, scene.second.c_str());
      const auto cut = exporting::leaningCut(part, mortise);
      if (!cut) continue;
      ++found;
      const kernel::Box3 open = openInSolid(part, mortise.face);
      for (int axis = 0; axis < 3; ++axis) {
        if (axis == mortise.face.axis) continue;
        EXPECT_NEAR(cut->opening.min[axis], open.min[axis], 2e-2) << scene.text.json().dump(2);
        EXPECT_NEAR(cut->opening.max[axis], open.max[axis], 2e-2) << scene.text.json().dump(2);
      }
      if (HasFailure()) return;
    }
  }
  EXPECT_GT(found, repetitions(80));
}

TEST(LeaningPart, IsSetOutFromTheCornerOfFaceSideAndFaceEdge) {
  const Piece piece = leaningLeg(14);
  const PlacedPart& leg = partNamed(piece, "leg");
  const auto lines = joinery::shoulderLines(leg);
  EXPECT_EQ(exporting::datumOf(leg), lines.at(leg.faceEdge.far, leg.faceSide.far).lo);
  EXPECT_NEAR(std::fabs(exporting::datumOf(leg)), 25 * std::tan(14 * std::numbers::pi / 180), 1e-6);
  EXPECT_EQ(exporting::datumOf(partNamed(piece, "foot")), 0);
}

TEST(LeaningPart, HasNoRowForWhatItsLengthsTell) {
  const Piece piece = leaningLeg(14);
  const auto rows = exporting::featureRows(piece, partNamed(piece, "leg"), joinery::Unit::mm);
  ASSERT_EQ(rows.size(), 1U);
  EXPECT_EQ(rows.front().purpose, Purpose::tenon);
  EXPECT_THAT(rows.front().depth, testing::EndsWith(" at face edge"));
  const auto foot = exporting::featureRows(piece, partNamed(piece, "foot"), joinery::Unit::mm);
  ASSERT_EQ(foot.size(), 1U);
  EXPECT_THAT(foot.front().name, testing::HasSubstr("14° off square, going in toward the "));
  EXPECT_THAT(foot.front().depth, testing::StartsWith("near wall "));
}

TEST(LeaningPart, LetsAShelfThatReachesBothEdgesRunOutAtBoth) {
  ModelText text;
  text.part("side", {"z", 0, 600}, {"y", 0, 100}, {"x", 0, 24})
      .part("shelf", {"x", 24, 400}, {"y", -20, 140}, {"z", 300, 20})
      .joint("housing", {{"kind", "through-housing"}, {"shelf", "shelf"}, {"side", "side"}})
      .turn("side", "x", {0, 50, 310}, 12);
  const Piece piece = pieceOf(text);
  const auto rows = exporting::featureRows(piece, partNamed(piece, "side"), joinery::Unit::mm);
  ASSERT_EQ(rows.size(), 1U);
  EXPECT_EQ(rows.front().name, "Housing, 12° off square in face side");
  EXPECT_EQ(rows.front().fromEdge, "full width");
}

TEST(LeaningPart, GivesTheLengthOfAHousingThatIsStoppedAtBothEnds) {
  ModelText text;
  text.part("side", {"z", 0, 600}, {"y", 0, 200}, {"x", 0, 24})
      .part("ledge", {"x", 24, 400}, {"y", 40, 110}, {"z", 300, 20})
      .joint("housing", {{"kind", "through-housing"}, {"shelf", "ledge"}, {"side", "side"}})
      .turn("ledge", "x", {0, 95, 310}, 12);
  const Piece piece = pieceOf(text);
  const auto rows = exporting::featureRows(piece, partNamed(piece, "side"), joinery::Unit::mm);
  ASSERT_EQ(rows.size(), 1U);
  EXPECT_THAT(rows.front().name, testing::StartsWith("Housing, stopped at both ends, 12°"));
  EXPECT_EQ(rows.front().size, "110 × 20.1");
}

}  // namespace
}  // namespace dryfit::test

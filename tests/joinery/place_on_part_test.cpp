// Faces, edges and corners of parts: named as expressions name them, found by a point, and the ones
// that lie against each other.

#include "joinery/piece/place_on_part.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>

#include "tests/support/hand_made.h"
#include "tests/support/repetitions.h"

namespace dryfit::test {
namespace {

using joinery::Axis;
using joinery::Face;
using joinery::PartId;
using joinery::PlaceKind;
using joinery::PlaceOnPart;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::UnorderedElementsAre;

/// Two ends 20 thick, 300 deep, 800 high, 600 apart, with a shelf between them at 400.
class Rack : public testing::Test {
 protected:
  HandMade made;
  PartId left = made.part("left_end", {{0, 0, 0}, {20, 300, 800}}, Axis::z, Axis::y);
  PartId right = made.part("right_end", {{620, 0, 0}, {640, 300, 800}}, Axis::z, Axis::y);
  PartId shelf = made.part("shelf", {{20, 0, 400}, {620, 280, 420}}, Axis::x, Axis::y);
  const joinery::Piece& piece = made.piece;
};

TEST_F(Rack, NamesAFaceAsExpressionsDo) {
  EXPECT_EQ(writtenName(piece, PlaceOnPart{left, {Face::right}}), "left_end.right");
  EXPECT_EQ(writtenName(piece, PlaceOnPart{shelf, {Face::front, Face::top}}),
            "shelf.front + shelf.top");
  EXPECT_EQ(wordsFor(piece, {shelf, {Face::front, Face::top}}), "shelf, front top edge");
  EXPECT_EQ(wordsFor(piece, {left, {Face::right}}), "left end, right face");
}

TEST_F(Rack, TheShelfLiesAgainstBothEnds) {
  EXPECT_THAT(touching(piece, {left, {Face::right}}),
              ElementsAre(PlaceOnPart{shelf, {Face::left}}));
  EXPECT_THAT(touching(piece, {shelf, {Face::right}}),
              ElementsAre(PlaceOnPart{right, {Face::left}}));
  EXPECT_THAT(touching(piece, {left, {Face::left}}), IsEmpty());
  EXPECT_THAT(touching(piece, {shelf, {Face::front}}), IsEmpty()) << "flush is not against";
}

TEST_F(Rack, TheCornersOfAFaceGoRoundIt) {
  const auto corners = outlineOf(piece, {shelf, {Face::top}});
  ASSERT_EQ(corners.size(), 4U);
  double round = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(corners[i].z, 420, 1e-9);
    round += (corners[(i + 1) % 4] - corners[i]).norm();
  }
  EXPECT_NEAR(round, 2 * (600 + 280), 1e-9);
}

TEST_F(Rack, APointInAGrooveIsOfTheFaceThatTheGrooveIsCutInto) {
  const auto place = placeAt(piece, left, {14, 150, 410}, {1, 0, 0}, PlaceKind::face);
  EXPECT_EQ(place, (PlaceOnPart{left, {Face::right}}));
}

TEST_F(Rack, EdgesAndCornersAreTheNearest) {
  EXPECT_EQ(placeAt(piece, shelf, {300, 5, 420}, {0, 0, 1}, PlaceKind::edge),
            (PlaceOnPart{shelf, {Face::front, Face::top}}));
  EXPECT_EQ(placeAt(piece, shelf, {590, 270, 420}, {0, 0, 1}, PlaceKind::corner),
            (PlaceOnPart{shelf, {Face::right, Face::back, Face::top}}));
}

TEST_F(Rack, APartHasSixFacesTwelveEdgesEightCorners) {
  EXPECT_EQ(placesOf(shelf, PlaceKind::face).size(), 6U);
  EXPECT_EQ(placesOf(shelf, PlaceKind::edge).size(), 12U);
  EXPECT_EQ(placesOf(shelf, PlaceKind::corner).size(), 8U);
}

TEST(PlacesOnParts, AnyPointOfAFaceNamesItHoweverThePartIsLaidAndTurned) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE(testing::Message() << "seed " << seed);
  std::mt19937 random(seed);
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution(low, high)(random);
  };
  constexpr std::array kAxes{Axis::x, Axis::y, Axis::z};
  for (int round = 0; round < repetitions(300); ++round) {
    HandMade made;
    const kernel::Point3 low{between(-500, 500), between(-500, 500), between(-500, 500)};
    const int length = std::uniform_int_distribution(0, 2)(random);
    const int width = (length + std::uniform_int_distribution(1, 2)(random)) % 3;
    const PartId part = made.part(
        "board", {low, low + kernel::Vec3{between(5, 900), between(5, 900), between(5, 900)}},
        kAxes[length], kAxes[width]);
    if (round % 2 == 1) {
      made.turnAll({between(0, 9), 0, 0}, kernel::Vec3{between(-1, 1), between(-1, 1), 0.1}.unit(),
                   Angle::degrees(between(0, 360)));
    }
    for (const PlaceOnPart& face : placesOf(part, PlaceKind::face)) {
      const auto corners = outlineOf(made.piece, face);
      ASSERT_EQ(corners.size(), 4U);
      const double along = between(0.02, 0.98), across = between(0.02, 0.98);
      const kernel::Point3 at =
          corners[0] + (corners[1] - corners[0]) * along + (corners[3] - corners[0]) * across;
      EXPECT_EQ(placeAt(made.piece, part, at, outwardOf(made.piece, face), PlaceKind::face), face);
      // Nothing of the wood lies beyond a face.
      for (const PlaceOnPart& corner : placesOf(part, PlaceKind::corner)) {
        const auto point = outlineOf(made.piece, corner).front();
        EXPECT_LE((point - corners[0]).dot(outwardOf(made.piece, face)), 1e-9);
      }
    }
  }
}

TEST(PlacesOnParts, LyingAgainstEachOtherIsMutual) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE(testing::Message() << "seed " << seed);
  std::mt19937 random(seed);
  const auto pick = [&] { return 10.0 * std::uniform_int_distribution(0, 3)(random); };
  for (int round = 0; round < repetitions(200); ++round) {
    HandMade made;
    for (int i = 0; i < 5; ++i) {
      const kernel::Point3 low{pick(), pick(), pick()};
      made.part("block_" + std::to_string(i),
                {low, low + kernel::Vec3{10 + pick(), 10 + pick(), 10 + pick()}}, Axis::x, Axis::y);
    }
    for (const auto& part : made.piece.parts) {
      for (const PlaceOnPart& face : placesOf(part.id, PlaceKind::face)) {
        for (const PlaceOnPart& other : touching(made.piece, face)) {
          EXPECT_THAT(touching(made.piece, other), Contains(face));
        }
      }
    }
  }
}

}  // namespace
}  // namespace dryfit::test

#include "joinery/joints/insert.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "tests/support/joint_bench.h"

namespace dryfit::test {
namespace {

using joinery::Contact;
using joinery::Face;
using joinery::findContact;
using joinery::LocalFace;
using joinery::Piece;

Piece railAndStile(double gap, double degrees = 0) {
  ModelText text;
  text.part("stile", {"z", 0, 400}, {"x", 0, 58}, {"y", 0, 22})
      .part("rail", {"x", 58 + gap, 300}, {"z", 200, 60}, {"y", 2, 18});
  if (degrees != 0) text.turn("stile", "y", {58, 11, 230}, degrees);
  return pieceOf(text);
}

TEST(Contact, IsFoundWhereTheNearestFacesLookAtEachOther) {
  const Piece piece = railAndStile(0);
  const auto& rail = partNamed(piece, "rail");
  const auto& stile = partNamed(piece, "stile");
  const auto contact = findContact(rail, stile);
  ASSERT_TRUE(contact);
  EXPECT_EQ(rail.named(contact->face), Face::left);
  EXPECT_EQ(stile.named(contact->otherFace), Face::right);
  EXPECT_NEAR(contact->gap, 0, 1e-12);
  EXPECT_TRUE(contact->square);
  EXPECT_EQ(contact->area.size()[contact->face.axis], 0);
  EXPECT_NEAR(contact->area.size().y * contact->area.size().z, 60 * 18, 1e-9);
}

TEST(Contact, StatesGapsAndOverlaps) {
  for (const double gap : {-3.0, 0.4, 20.0}) {
    const Piece piece = railAndStile(gap);
    const auto contact = findContact(partNamed(piece, "rail"), partNamed(piece, "stile"));
    ASSERT_TRUE(contact);
    EXPECT_NEAR(contact->gap, gap, 1e-9);
  }
}

TEST(Contact, IsNotFoundBeyondFiftyMillimetres) {
  const Piece piece = railAndStile(51);
  const auto contact = findContact(partNamed(piece, "rail"), partNamed(piece, "stile"));
  ASSERT_FALSE(contact);
  EXPECT_EQ(contact.error().code, ErrorCode::matesApart);
}

TEST(Contact, LooksOnlyAtTheNamedFace) {
  const Piece piece = railAndStile(0);
  const auto& rail = partNamed(piece, "rail");
  const auto& stile = partNamed(piece, "stile");
  EXPECT_TRUE(findContact(rail, stile, Face::left));
  EXPECT_FALSE(findContact(rail, stile, Face::right));
}

TEST(Contact, KnowsASlantingFace) {
  const Piece piece = railAndStile(0, 5);
  const auto mating = joinery::Mating::of(partNamed(piece, "rail"), partNamed(piece, "stile"));
  ASSERT_TRUE(mating);
  EXPECT_FALSE(mating->contact().square);
  EXPECT_NEAR(mating->cosine(), std::cos(5 * std::numbers::pi / 180), 1e-12);
  const auto reach = mating->reachOf({mating->blank(0), mating->blank(1), mating->blank(2)});
  EXPECT_NEAR(reach.size(), 60 * std::tan(5 * std::numbers::pi / 180), 1e-9);
  EXPECT_NEAR(reach.mid(), 0, 1e-9);
}

TEST(OverRun, CarriesACutPastTheFacesItEndsOnAndNoOther) {
  const kernel::Box3 wood{{0, 0, 0}, {100, 50, 20}};
  const kernel::Box3 cut = joinery::overRun({{10, 0, 5}, {100, 40, 26}}, wood);
  EXPECT_EQ(cut, (kernel::Box3{{10, -1, 5}, {101, 40, 26}}));
}

}  // namespace
}  // namespace dryfit::test

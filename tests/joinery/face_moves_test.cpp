// A face that is moved stands where it was told to, the face opposite stays, and the file says so.

#include "joinery/building/face_moves.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "joinery/fit/dry_fit.h"
#include "tests/support/random_answers.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::test {
namespace {

using joinery::Basis;
using joinery::Face;
using joinery::ModelFile;
using joinery::PartFace;
using joinery::PartId;

constexpr const char* kRack = R"({
  "format": "dryfit-model", "version": 1, "name": "Rack", "unit": "mm",
  "dimensions": {"width": 800},
  "materials": {"ash": {"kind": "solid", "species": "white ash", "thickness": 20}},
  "parts": {
    "side": {"material": "ash",
      "length": {"along": "z", "from": 0, "to": 900},
      "width": {"along": "y", "from": 0, "size": 200},
      "thickness": {"along": "x", "from": 0}},
    "other_side": {"material": "ash",
      "length": {"along": "z", "from": 0, "to": 900},
      "width": {"along": "y", "centre": 100, "size": 200},
      "thickness": {"along": "x", "to": "width - 2"}},
    "shelf": {"material": "ash",
      "length": {"along": "x", "from": "side.right", "to": "other_side.left"},
      "width": {"along": "y", "from": "side.front + 4", "to": "side.back"},
      "thickness": {"along": "z", "from": 300}}
  }
})";

joinery::Piece pieceOf(const ModelFile& file) {
  return joinery::evaluate(file.model(), Basis::drawn).value();
}

class FaceMoves : public testing::Test {
 protected:
  PartFace at(const char* part, Face face) {
    const auto& parts = file_.model().parts;
    const auto found = std::ranges::find(parts, part, &joinery::Part::name);
    return {PartId(static_cast<std::size_t>(found - parts.begin())), face};
  }
  void move(const char* part, Face face, const std::string& expression) {
    const auto done = joinery::moveFace(file_, pieceOf(file_), at(part, face), expression);
    ASSERT_TRUE(done) << done.error().line();
  }
  double where(const char* part, Face face) {
    return joinery::standsAt(pieceOf(file_), at(part, face));
  }
  joinery::FaceHold hold(const char* part, Face face) {
    return joinery::holdOf(file_, pieceOf(file_), at(part, face));
  }

  ModelFile file_ = ModelFile::parse(kRack, "rack").value();
};

TEST_F(FaceMoves, TellWhatHoldsAFace) {
  EXPECT_EQ(hold("shelf", Face::left).expression, "side.right");
  EXPECT_EQ(hold("shelf", Face::left).span, "length");
  EXPECT_EQ(hold("side", Face::back).expression, "") << "it follows from front and size";
  EXPECT_DOUBLE_EQ(hold("side", Face::back).at, 200);
}

TEST_F(FaceMoves, LetTheFaceOppositeStayHoweverItWasHeld) {
  move("side", Face::back, "230");
  EXPECT_DOUBLE_EQ(where("side", Face::back), 230);
  EXPECT_DOUBLE_EQ(where("side", Face::front), 0);
  move("other_side", Face::front, "20");
  EXPECT_DOUBLE_EQ(where("other_side", Face::front), 20);
  EXPECT_DOUBLE_EQ(where("other_side", Face::back), 200);
}

TEST_F(FaceMoves, LetTheNeighbourWhoseFaceIsNamedFollow) {
  move("side", Face::right, "44");
  EXPECT_DOUBLE_EQ(where("side", Face::left), 24) << "wood stays as thick as it is";
  EXPECT_DOUBLE_EQ(where("shelf", Face::left), 44);
}

TEST_F(FaceMoves, AreWrittenAsTheFaceThatTheyMeet) {
  move("shelf", Face::front, "other_side.front");
  EXPECT_EQ(hold("shelf", Face::front).expression, "other_side.front");
}

TEST_F(FaceMoves, AreRefusedWhereAFaceWouldHangOnItself) {
  const joinery::Piece piece = pieceOf(file_);
  const std::string before = file_.text();
  const auto nowhere = joinery::moveFace(file_, piece, at("shelf", Face::left), " ");
  ASSERT_FALSE(nowhere);
  EXPECT_EQ(nowhere.error().where, "parts.shelf.length.from");
  EXPECT_EQ(file_.text(), before);
  // A file may hold what hangs on itself, so that it can be mended; its numbers it does not give.
  ASSERT_TRUE(joinery::moveFace(file_, piece, at("side", Face::right), "shelf.left"));
  const auto after = joinery::evaluate(file_.model(), Basis::drawn);
  ASSERT_FALSE(after);
  EXPECT_EQ(after.error().code, ErrorCode::cycle);
}

TEST_F(FaceMoves, AddUpInOneNumber) {
  auto held = hold("shelf", Face::front);
  EXPECT_EQ(joinery::movedBy(held, 3, joinery::Unit::mm), "side.front + 7");
  EXPECT_EQ(joinery::movedBy(held, -6, joinery::Unit::mm), "side.front - 2");
  EXPECT_EQ(joinery::movedBy(held, -4, joinery::Unit::mm), "side.front");
  EXPECT_EQ(joinery::movedBy(held, 25.4, joinery::Unit::inch), "side.front + 5");
  EXPECT_EQ(joinery::movedBy(hold("side", Face::top), 12, joinery::Unit::mm), "912");
  EXPECT_EQ(joinery::movedBy(hold("shelf", Face::left), 5, joinery::Unit::mm), "side.right + 5");
}

TEST(RandomFaceMoves, StandWhereTheyWereToldAndReadAgainAsSaved) {
  const auto seeded = seed();
  std::mt19937_64 random(seeded);
  int moved = 0;
  for (const joinery::Starter& starter : builtInStarters()) {
    const ModelFile whole = starterFile(starter);
    const auto piece = pieceOf(whole);
    for (int i = 0; i < repetitions(20); ++i) {
      const PartFace face{PartId(random() % piece.parts.size()), Face(random() % 6)};
      const auto hold = joinery::holdOf(whole, piece, face);
      ModelFile file = whole;
      const double by = std::uniform_int_distribution<int>(-9, 9)(random);
      const std::string text = joinery::movedBy(hold, by, whole.model().unit);
      const std::string trace = fmt::format("{} (seed {}): {} to {}", starter.name, seeded,
                                            joinery::writtenName(piece, face), text);
      if (!joinery::moveFace(file, piece, face, text)) continue;
      const auto after = joinery::evaluate(file.model(), Basis::drawn);
      if (!after || after->parts.size() != piece.parts.size()) continue;
      const std::string& name = piece.part(face.part).name;
      // Copies are written once for all: what moves one may move what it is placed from.
      const bool single = whole.authoredPlace("parts", name) == "parts." + name;
      if (single) {
        ++moved;
        EXPECT_NEAR(joinery::standsAt(*after, face) - hold.at, by, 1e-6) << trace;
        if (hold.span != "thickness") {
          const PartFace opposite{face.part,
                                  joinery::faceOf(axisOf(face.face), !isFarFace(face.face))};
          EXPECT_NEAR(joinery::standsAt(*after, opposite), joinery::standsAt(piece, opposite), 1e-6)
              << trace;
        }
      }
      const auto again = ModelFile::parse(file.text(), "again");
      ASSERT_TRUE(again) << trace;
      EXPECT_TRUE(again->saysTheSame(file)) << trace;
    }
  }
  EXPECT_GT(moved, 20);
}

}  // namespace
}  // namespace dryfit::test

#include "joinery/piece/place_parts.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "joinery/formula/length_text.h"
#include "tests/joinery/model_samples.h"

namespace dryfit::joinery {
namespace {

using kernel::Point3;
using kernel::Vec3;

Error errorFrom(const std::string& text, Basis basis = Basis::drawn) {
  const ModelFile file = fileFrom(text);
  const auto piece = placeParts(file.model(), basis);
  return piece ? Error{} : piece.error();
}

/// One board, its spans and anything else given as text.
std::string boardText(const std::string& spans, const std::string& dimensions = "") {
  return R"({"format": "dryfit-model", "version": 1, "name": "Board", "unit": "mm",
    "dimensions": {)" +
         dimensions + R"(},
    "materials": {"oak": {"kind": "solid", "species": "white oak", "thickness": 20}},
    "parts": {"board": {"material": "oak", )" +
         spans + "}}}";
}

void expectNear(Point3 a, Point3 b) {
  EXPECT_NEAR(a.x, b.x, 1e-9);
  EXPECT_NEAR(a.y, b.y, 1e-9);
  EXPECT_NEAR(a.z, b.z, 1e-9);
}

TEST(Evaluate, RunsARailFromShoulderToShoulder) {
  const Piece piece = pieceFrom(doorText());
  const PlacedPart& rail = partNamed(piece, "top_rail");
  EXPECT_DOUBLE_EQ(rail.size.x, 400 - 2 * 62);
  EXPECT_DOUBLE_EQ(rail.size.y, 62 + 25.4);
  EXPECT_DOUBLE_EQ(rail.size.z, 23);
  EXPECT_DOUBLE_EQ(piece.values.at("left_stile.right"), 62);
  EXPECT_DOUBLE_EQ(piece.values.at("top_rail.width"), 87.4);
  EXPECT_DOUBLE_EQ(piece.values.at("oak.thickness"), 23);
  EXPECT_EQ(rail.grain, PartAxis::length);
  EXPECT_FALSE(partNamed(piece, "panel").grain);
}

TEST(Evaluate, ARailFollowsANarrowerStile) {
  const unsigned seed = 31;
  SCOPED_TRACE(seed);
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> widths(30, 90), doors(300, 1200), changes(-15, 15);
  for (int i = 0; i < 200; ++i) {
    const double width = widths(random), door = doors(random), change = changes(random);
    std::string text =
        replaced(doorText(), "\"door_width\": 400", fmt::format("\"door_width\": {}", door));
    text = replaced(text, "{\"value\": 62", fmt::format("{{\"value\": {}", width));
    ModelFile file = fileFrom(text);
    const Piece before = *placeParts(file.model(), Basis::drawn);
    ASSERT_TRUE(file.setMeasurement({Measurement::Scope::part,
                                     "left_stile",
                                     SizeName::width,
                                     {fmt::format("{}", width + change), true}}));
    ASSERT_TRUE(
        file.setMeasurement({Measurement::Scope::material, "oak", SizeName::thickness, {}}));
    const Piece after = *placeParts(file.model(), Basis::measured);
    for (const char* rail : {"top_rail", "bottom_rail"}) {
      EXPECT_NEAR(partNamed(after, rail).size.x - partNamed(before, rail).size.x, -change, 1e-9);
      // The rail still ends where the stiles begin.
      EXPECT_DOUBLE_EQ(partNamed(after, rail).span.min.x,
                       partNamed(after, "left_stile").span.max.x);
      EXPECT_NEAR(partNamed(after, rail).span.max.x, partNamed(after, "right_stile").span.min.x,
                  1e-9);
    }
    EXPECT_NEAR(after.values.at("panel.width") - before.values.at("panel.width"), -change, 1e-9);
    EXPECT_NEAR(after.values.at("right_stile.left"), before.values.at("right_stile.left"), 1e-9);
  }
}

TEST(Evaluate, KeepsTheRoomBetweenTwoSidesWhenStockComesThin) {
  // A case of given width has more room inside when its two sides come out thinner.
  std::string text = replaced(doorText(), "\"door_width\": 400,",
                              "\"door_width\": 400, \"room\": \"case_width - 2 * oak.thickness\", "
                              "\"case_width\": 350,");
  const ModelFile file = fileFrom(text);
  EXPECT_DOUBLE_EQ(placeParts(file.model(), Basis::drawn)->values.at("room"), 350 - 2 * 23);
  EXPECT_DOUBLE_EQ(placeParts(file.model(), Basis::measured)->values.at("room"), 350 - 2 * 22.3);
}

TEST(Evaluate, TakesThePartsMeasureOverItsBatchOverItsMaterial) {
  const Piece drawn = pieceFrom(doorText(), Basis::drawn);
  const Piece measured = pieceFrom(doorText(), Basis::measured);
  EXPECT_DOUBLE_EQ(partNamed(drawn, "left_stile").size.z, 23);
  EXPECT_DOUBLE_EQ(partNamed(measured, "left_stile").size.z, 25.4 * 7 / 8);  // its batch
  EXPECT_DOUBLE_EQ(partNamed(measured, "right_stile").size.z, 22.3);         // the material
  EXPECT_DOUBLE_EQ(partNamed(measured, "left_stile").size.y, 60.8);
  EXPECT_DOUBLE_EQ(partNamed(measured, "right_stile").size.y, 62);
  EXPECT_DOUBLE_EQ(measured.values.at("oak.thickness"), 22.3);
  // The panel lies in the middle of the stock.
  EXPECT_DOUBLE_EQ(partNamed(measured, "panel").span.centre().y, 11.15);
  const Piece own = pieceFrom(replaced(doorText(), "{\"width\": 60.8}", "{\"thickness\": 20.5}"),
                              Basis::measured);
  EXPECT_DOUBLE_EQ(partNamed(own, "left_stile").size.z, 20.5);
}

TEST(Evaluate, LeavesAGivenThicknessToItsAuthor) {
  const std::string given =
      replaced(doorText(), "\"thickness\": {\"along\": \"y\", \"from\": 0}",
               "\"thickness\": {\"along\": \"y\", \"from\": 0, \"size\": 19}");
  EXPECT_DOUBLE_EQ(partNamed(pieceFrom(given, Basis::measured), "left_stile").size.z, 19);
}

/// What stays where it is when a span of 100 to 200 is measured as 90.
struct Kept {
  const char* span;
  double from, to;
};

class MeasuredSpan : public ::testing::TestWithParam<Kept> {};

TEST_P(MeasuredSpan, KeepsItsPlace) {
  const Kept& kept = GetParam();
  const std::string text = boardText(fmt::format(
      R"("length": {{"along": "x", {}}}, "width": {{"along": "y", "from": 0, "size": 50}},
        "thickness": {{"along": "z", "from": 0}}}}}},
        "measured": {{"parts": {{"board": {{"length": 90}})",
      kept.span));
  const Piece drawn = pieceFrom(text);
  EXPECT_DOUBLE_EQ(drawn.values.at("board.left"), 100);
  EXPECT_DOUBLE_EQ(drawn.values.at("board.right"), 200);
  EXPECT_DOUBLE_EQ(drawn.values.at("board.length"), 100);
  const Piece measured = pieceFrom(text, Basis::measured);
  EXPECT_DOUBLE_EQ(measured.values.at("board.left"), kept.from);
  EXPECT_DOUBLE_EQ(measured.values.at("board.right"), kept.to);
  EXPECT_DOUBLE_EQ(measured.values.at("board.length"), 90);
}

INSTANTIATE_TEST_SUITE_P(Every, MeasuredSpan,
                         ::testing::Values(Kept{R"("from": 100, "to": 200)", 100, 190},
                                           Kept{R"("from": 100, "size": 100)", 100, 190},
                                           Kept{R"("to": 200, "size": 100)", 110, 200},
                                           Kept{R"("centre": 150, "size": 100)", 105, 195},
                                           Kept{R"("centre": 150, "from": 100)", 105, 195},
                                           Kept{R"("centre": 150, "to": 200)", 105, 195}));

TEST(Evaluate, GivesTheSamePieceInEveryUnit) {
  const auto frame = [](const std::string& unit, double k) {
    return fmt::format(R"({{"format": "dryfit-model", "version": 1, "name": "F", "unit": "{}",
      "dimensions": {{"w": {}, "half": "w / 2", "lip": "5 mm + 1/4 in"}},
      "materials": {{"oak": {{"kind": "solid", "species": "red oak", "thickness": {}}}}},
      "parts": {{"a": {{"material": "oak",
        "length": {{"along": "z", "from": "lip", "size": "w * 2"}},
        "width": {{"along": "x", "centre": "half", "size": "w"}},
        "thickness": {{"along": "y", "to": "oak.thickness * 2"}},
        "turn": {{"about": "y", "at": ["half", 0, "a.top"], "angle": "2 * 15"}}}}}}}})",
                       unit, 76.2 / k, 19.05 / k);
  };
  const Piece mm = pieceFrom(frame("mm", 1));
  for (const auto& [unit, k] : {std::pair{"cm", 10.0}, std::pair{"in", 25.4}}) {
    const Piece other = pieceFrom(frame(unit, k));
    for (const auto& [name, value] : mm.values) {
      EXPECT_NEAR(other.values.at(name), value, 1e-9) << name << " in " << unit;
    }
    expectNear(other.parts[0].frame.place({1, 2, 3}), mm.parts[0].frame.place({1, 2, 3}));
  }
  EXPECT_NEAR(mm.values.at("lip"), 11.35, 1e-12);
}

TEST(Evaluate, StandsEveryPartInARightHandedFrameOverItsSpan) {
  const std::array<const char*, 3> axes{"x", "y", "z"};
  for (int l = 0; l < 3; ++l) {
    for (int w = 0; w < 3; ++w) {
      if (l == w) continue;
      const int t = 3 - l - w;
      const Piece piece =
          pieceFrom(boardText(fmt::format(R"("length": {{"along": "{}", "from": 10, "size": 300}},
            "width": {{"along": "{}", "from": -5, "size": 80}},
            "thickness": {{"along": "{}", "from": 7}})",
                                          axes[l], axes[w], axes[t])));
      const PlacedPart& part = piece.parts[0];
      EXPECT_EQ(part.frame.x.cross(part.frame.y), part.frame.z);
      const kernel::Box3 placed = kernel::boundsOf(part.frame, part.blank());
      expectNear(placed.min, part.span.min);
      expectNear(placed.max, part.span.max);
      EXPECT_EQ(part.frame.x[l], 1);
      EXPECT_EQ(part.frame.y[w], 1);
      for (const Face face :
           {Face::left, Face::right, Face::front, Face::back, Face::bottom, Face::top}) {
        const LocalFace local = part.local(face);
        EXPECT_EQ(part.named(local), face);
        // The face looks the way its name says.
        const Vec3 outward = part.frame.turn(local.outward());
        EXPECT_EQ(outward[static_cast<int>(axisOf(face))], isFarFace(face) ? 1 : -1);
      }
      // Unless told otherwise the marks are on the near faces.
      EXPECT_FALSE(isFarFace(part.named(part.faceSide)));
      EXPECT_FALSE(isFarFace(part.named(part.faceEdge)));
    }
  }
}

TEST(Evaluate, TurnsAPartFirstAndItsGroupAfter) {
  std::string text = boardText(R"("group": "lid",
    "length": {"along": "x", "from": 0, "size": 100}, "width": {"along": "y", "from": 0, "size": 50},
    "thickness": {"along": "z", "from": 0},
    "turn": {"about": "z", "at": [0, 0, 0], "angle": 90})");
  text = replaced(
      text, "\"parts\"",
      R"("groups": {"lid": {"turn": {"about": "x", "at": [0, 0, 0], "angle": 90}}}, "parts")");
  const PlacedPart part = pieceFrom(text).parts[0];
  EXPECT_TRUE(part.turned);
  // Length: x -> y by the part's turn, y -> z by the group's.
  expectNear(part.frame.place({100, 0, 0}), {0, 0, 100});
  expectNear(part.frame.place({0, 50, 0}), {-50, 0, 0});
  expectNear(part.frame.place({0, 0, 20}), {0, -20, 0});
  EXPECT_DOUBLE_EQ(part.span.max.x, 100);  // as drawn
}

TEST(Evaluate, DoesNotTurnByNothing) {
  EXPECT_FALSE(pieceFrom(doorText()).parts[0].turned);
}

TEST(Evaluate, NamesTheWholeCycle) {
  const std::string spans = R"("length": {"along": "x", "from": 0, "size": "a"},
    "width": {"along": "y", "from": 0, "size": 50}, "thickness": {"along": "z", "from": 0})";
  Error error =
      errorFrom(boardText(spans, R"("z": "a", "a": "b + 1", "b": "2 * c", "c": "a - 1")"));
  EXPECT_EQ(error.code, ErrorCode::cycle);
  EXPECT_NE(error.what.find("a -> b -> c -> a"), std::string::npos) << error.what;
  EXPECT_EQ(error.where, "dimensions.a");
  error = errorFrom(boardText(spans, R"("a": "a")"));
  EXPECT_NE(error.what.find("a -> a"), std::string::npos) << error.what;
  error = errorFrom(boardText(spans, R"("a": "board.length")"));
  EXPECT_NE(error.what.find("a -> board.length -> a"), std::string::npos) << error.what;
}

TEST(Evaluate, SeesNoCycleInThePartsOfASpan) {
  // The far end reads the near end of the same part through another: no loop.
  const Piece piece = pieceFrom(boardText(
      R"("length": {"along": "x", "from": 10, "to": "b"}, "width": {"along": "y", "from": 0,
         "size": "board.length / 2"}, "thickness": {"along": "z", "from": "board.left"})",
      R"("b": "board.left + 90")"));
  EXPECT_DOUBLE_EQ(piece.values.at("board.length"), 90);
  EXPECT_DOUBLE_EQ(piece.values.at("board.width"), 45);
}

TEST(Evaluate, SurvivesALongChainOfDimensions) {
  std::string dimensions = "\"d0\": 1";
  for (int i = 1; i < 20000; ++i) dimensions += fmt::format(", \"d{}\": \"d{} + 1\"", i, i - 1);
  const Piece piece = pieceFrom(boardText(
      R"("length": {"along": "x", "from": 0, "size": "d19999"},
         "width": {"along": "y", "from": 0, "size": 50}, "thickness": {"along": "z", "from": 0})",
      dimensions));
  EXPECT_DOUBLE_EQ(piece.values.at("board.length"), 20000);
}

/// A slip in numbers or names, and what the line about it must say.
struct Slip {
  const char* from;
  const char* to;
  const char* place;
  const char* says;
  ErrorCode code;
};

class EvaluateSlip : public ::testing::TestWithParam<Slip> {};

TEST_P(EvaluateSlip, GetsOneLineWithItsPlace) {
  const Slip& slip = GetParam();
  const Error error = errorFrom(replaced(doorText(), slip.from, slip.to));
  EXPECT_EQ(error.code, slip.code) << error.line();
  EXPECT_EQ(error.where, slip.place) << error.line();
  EXPECT_NE(error.line().find(slip.says), std::string::npos) << error.line();
  EXPECT_EQ(error.line().find('\n'), std::string::npos);
}

INSTANTIATE_TEST_SUITE_P(
    Every, EvaluateSlip,
    ::testing::Values(
        Slip{"\"stile_width + 1 in\"", "\"stile_widht + 1 in\"", "dimensions.rail_width",
             "'stile_width'", ErrorCode::unknownName},
        Slip{"\"left_stile.right\"", "\"left_stile.rigth\"", "parts.top_rail.length.from",
             "'left_stile.right'", ErrorCode::unknownName},
        Slip{"\"from\": \"left_stile.right\"", "\"from\": \"right_stile.right\"",
             "parts.top_rail.length", "-62 mm", ErrorCode::badDimension},
        Slip{"\"size\": 600", "\"size\": 0", "parts.left_stile.length.size", "0 mm",
             ErrorCode::badDimension},
        Slip{"\"size\": 600", "\"size\": 100000.1", "parts.left_stile.length.size", "100 m",
             ErrorCode::badDimension},
        Slip{"\"from\": 0, \"size\": 600", "\"from\": -1e6, \"size\": 600",
             "parts.left_stile.length.from", "100 m", ErrorCode::badDimension},
        Slip{"\"size\": 600", "\"size\": \"1 / (stile_width - 62)\"",
             "parts.left_stile.length.size", "finite", ErrorCode::badExpression},
        Slip{"\"white oak\", \"thickness\": 23", "\"white oak\", \"thickness\": 0",
             "materials.oak.thickness", "0 mm", ErrorCode::badDimension},
        Slip{"\"from\": 0, \"size\": 600", "\"from\": 0", "parts.left_stile.length",
             "1 of from, to, size and centre", ErrorCode::spansUnfit},
        Slip{"\"from\": 0, \"size\": 600", "\"from\": 0, \"to\": 600, \"size\": 600",
             "parts.left_stile.length", "3 of from, to, size and centre", ErrorCode::spansUnfit},
        Slip{"\"thickness\": {\"along\": \"y\", \"from\": 0}",
             "\"thickness\": {\"along\": \"y\", \"size\": 23}", "parts.left_stile.thickness",
             "1 of from, to, size and centre", ErrorCode::spansUnfit},
        Slip{"\"along\": \"z\"", "\"along\": \"x\"", "parts.left_stile", "the same axis",
             ErrorCode::spansUnfit},
        Slip{"\"face_side\": \"front\"", "\"face_side\": \"left\"", "parts.left_stile.face_side",
             "front or back", ErrorCode::faceNotAcross},
        Slip{"\"face_edge\": \"right\"", "\"face_edge\": \"top\"", "parts.left_stile.face_edge",
             "left or right", ErrorCode::faceNotAcross},
        Slip{"\"angle\": 0", "\"angle\": 400", "groups.door.turn.angle", "400 degrees",
             ErrorCode::badDimension},
        Slip{"[0, \"oak.thickness\", 0]", "[0, \"oka.thickness\", 0]", "groups.door.turn.at[1]",
             "'oak.thickness'", ErrorCode::unknownName},
        Slip{"[0, \"oak.thickness\", 0]", "[0, 1e6, 0]", "groups.door.turn.at[1]", "100 m",
             ErrorCode::badDimension}));

TEST(Evaluate, NamesUnknownSizesEvenWhereAMeasureReplacesThem) {
  const std::string text = replaced(doorText(), "\"size\": \"stile_width\"", "\"size\": \"stile\"");
  EXPECT_EQ(errorFrom(text, Basis::measured).code, ErrorCode::unknownName);
}

}  // namespace
}  // namespace dryfit::joinery

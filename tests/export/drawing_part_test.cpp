// Every drawing of a part, whatever the part, keeps the rules of a legible sheet.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <set>

#include "export/drawing/feature_rows.h"
#include "export/drawing/gutter.h"
#include "export/drawing/part_drawing.h"
#include "export/drawing/text_measure.h"
#include "joinery/file/model_file.h"
#include "joinery/formula/length_text.h"
#include "joinery/joints/evaluate.h"
#include "tests/export/drawing_pieces.h"
#include "tests/export/drawing_rules.h"
#include "tests/support/random_pieces.h"

namespace dryfit::test {
namespace {

using exporting::Box2;
using exporting::DrawingOptions;
using exporting::Layer;
using exporting::LineClass;
using exporting::Mark;
using exporting::Sheet;
using exporting::Stroke;
using exporting::Text;

std::vector<Sheet> drawAll(const DrawnPiece& drawn, const DrawingOptions& options) {
  std::vector<Sheet> sheets;
  for (const joinery::PartGroup& group : drawn.groups) {
    const auto sheet = exporting::drawPart(drawn.piece, drawn.solids, group, options);
    EXPECT_TRUE(sheet.has_value()) << (sheet ? "" : sheet.error().line());
    if (sheet) sheets.push_back(*sheet);
  }
  return sheets;
}

DrawnPiece door() {
  return makeDrawable(doorPiece());
}

const joinery::PartGroup& groupOf(const DrawnPiece& drawn, const std::string& part) {
  for (const joinery::PartGroup& group : drawn.groups) {
    for (const joinery::PartId id : group.parts) {
      if (drawn.piece.part(id).name == part) return group;
    }
  }
  throw std::invalid_argument(part);
}

Sheet sheetOf(const DrawnPiece& drawn, const std::string& part,
              const DrawingOptions& options = {}) {
  return exporting::drawPart(drawn.piece, drawn.solids, groupOf(drawn, part), options).value();
}

TEST(PartDrawing, KeepsTextsApartAndInsideTheFrame) {
  for (const joinery::Piece& piece : {doorPiece(), tablePiece(), bookcasePiece()}) {
    const DrawnPiece drawn = makeDrawable(piece);
    for (const joinery::Unit unit : {joinery::Unit::mm, joinery::Unit::cm, joinery::Unit::inch}) {
      DrawingOptions options;
      options.unit = unit;
      for (const Sheet& sheet : drawAll(drawn, options)) expectGoodSheet(sheet);
    }
  }
}

TEST(PartDrawing, KeepsTextsApartForAnyPart) {
  std::mt19937_64 random(seed());
  for (int i = 0; i < 40; ++i) {
    SCOPED_TRACE("seed " + std::to_string(seed()) + ", piece " + std::to_string(i));
    const DrawnPiece drawn = makeDrawable(randomDrawnPiece(random));
    DrawingOptions options;
    options.unit = i % 3 == 0 ? joinery::Unit::inch : joinery::Unit::mm;
    const auto sheet =
        exporting::drawPart(drawn.piece, drawn.solids, drawn.groups.front(), options);
    ASSERT_TRUE(sheet.has_value()) << sheet.error().line();
    expectGoodSheet(*sheet);
  }
}

TEST(PartDrawing, NamesEachJointOfThePartOnceInItsTable) {
  for (const joinery::Piece& piece : {doorPiece(), tablePiece(), bookcasePiece()}) {
    for (const joinery::PlacedPart& part : piece.parts) {
      std::multiset<std::size_t> listed;
      std::set<std::string> letters;
      for (const auto& row : exporting::featureRows(piece, part, joinery::Unit::mm)) {
        listed.insert(row.features.begin(), row.features.end());
        EXPECT_TRUE(letters.insert(row.letter).second);
      }
      EXPECT_EQ(listed.size(), part.features.size());
      for (std::size_t i = 0; i < part.features.size(); ++i) EXPECT_EQ(listed.count(i), 1U);
    }
  }
}

TEST(PartDrawing, ShowsEveryRowOfTheTableWithItsLetter) {
  const DrawnPiece drawn = door();
  for (const joinery::PartGroup& group : drawn.groups) {
    const auto sheet = exporting::drawPart(drawn.piece, drawn.solids, group, {}).value();
    const auto& part = drawn.piece.parts[group.parts.front().index()];
    for (const auto& row : exporting::featureRows(drawn.piece, part, joinery::Unit::mm)) {
      const auto shown = std::ranges::count_if(textsOf(sheet),
                                               [&](const Text& t) { return t.text == row.letter; });
      EXPECT_GE(shown, 2) << "a balloon and the table's row, " << row.letter;
      EXPECT_LE(static_cast<std::size_t>(shown), row.features.size() + 1);
    }
  }
}

TEST(PartDrawing, GivesOverallAndShoulderLengthOfARail) {
  // 280 mm between shoulders and two tenons of 38 mm.
  const Sheet sheet = sheetOf(door(), "top_rail");
  EXPECT_TRUE(hasText(sheet, "356 overall, with tenons"));
  EXPECT_TRUE(hasText(sheet, "280 between shoulders"));
  EXPECT_TRUE(hasText(sheet, "38"));
  EXPECT_TRUE(hasText(sheet, "356 × 60 × 24"));
}

TEST(PartDrawing, SpeaksInTheChosenUnit) {
  DrawingOptions options;
  options.unit = joinery::Unit::inch;
  const DrawnPiece drawn = door();
  const Sheet sheet = sheetOf(drawn, "left_stile", options);
  EXPECT_TRUE(hasText(sheet, joinery::lengthText(Length::mm(600), joinery::Unit::inch)));
  EXPECT_TRUE(hasText(sheet, "in"));
  EXPECT_FALSE(hasText(sheet, "600"));
}

/// Box round the wide lines whose points all lie inside a box of the sheet.
Box2 outlineIn(const Sheet& sheet, const Box2& region) {
  Box2 box;
  for (const Mark& mark : sheet.ink.marks) {
    const auto* stroke = std::get_if<Stroke>(&mark);
    if (stroke == nullptr || stroke->line != LineClass::visible) continue;
    Box2 own;
    for (const auto& p : stroke->points) own.add(p);
    if (region.contains(own)) box.add(own);
  }
  return box;
}

const Text& textNamed(const std::vector<Text>& texts, const std::string& wanted) {
  return *std::ranges::find(texts, wanted, &Text::text);
}

TEST(PartDrawing, DrawsTheFaceSideToScaleWithTheFaceEdgeBelowIt) {
  // A plain part has three views and no details, so that the wide lines fall into three boxes.
  const DrawnPiece drawn = makeDrawable(plainPiece(420, 80, 20));
  const Sheet sheet = sheetOf(drawn, "board");
  const std::vector<Text> texts = textsOf(sheet);
  ASSERT_TRUE(hasText(sheet, "1:2"));
  const double front = textNamed(texts, "Face side").at.y;
  const double edge = textNamed(texts, "Face edge").at.y;
  const double end = textNamed(texts, "Left end").at.x;
  // ISO 5456-2, first angle: what is seen from above lies below, what is seen from the left lies at
  // the right (from memory).
  EXPECT_LT(edge, front);
  const double dividing = end - 8;
  const Box2 frontBox = outlineIn(sheet, {{0, front}, {dividing, sheet.height}});
  const Box2 edgeBox = outlineIn(sheet, {{0, 0}, {dividing, front}});
  const Box2 endBox = outlineIn(sheet, {{dividing, 60}, {sheet.width, sheet.height}});
  EXPECT_NEAR(frontBox.width(), 210, 1e-6);
  EXPECT_NEAR(frontBox.height(), 40, 1e-6);
  EXPECT_NEAR(edgeBox.width(), 210, 1e-6);
  EXPECT_NEAR(edgeBox.height(), 10, 1e-6);
  EXPECT_NEAR(endBox.width(), 10, 1e-6);
  EXPECT_NEAR(endBox.height(), 40, 1e-6);
  EXPECT_LT(edgeBox.max.y, frontBox.min.y);
  EXPECT_GT(endBox.min.x, frontBox.max.x);
  EXPECT_NEAR(edgeBox.min.x, frontBox.min.x, 1e-6);
  EXPECT_NEAR(endBox.min.y, frontBox.min.y, 1e-6);
}

TEST(PartDrawing, ChoosesAScaleOfTheStandard) {
  // ISO 5455 reductions: 1:1, 1:2, 1:5, 1:10, 1:20, 1:50 (from memory).
  const std::set<std::string> standard{"1:1", "1:2", "1:5", "1:10", "1:20", "1:50"};
  std::mt19937_64 random(seed());
  for (int i = 0; i < 10; ++i) {
    const DrawnPiece drawn = makeDrawable(randomDrawnPiece(random));
    const auto sheet =
        exporting::drawPart(drawn.piece, drawn.solids, drawn.groups.front(), {}).value();
    const auto shown = std::ranges::count_if(
        textsOf(sheet), [&](const Text& t) { return standard.contains(t.text); });
    EXPECT_EQ(shown, 1) << "seed " << seed() << ", piece " << i;
  }
}

TEST(PartDrawing, IsTheSameEveryTime) {
  const DrawnPiece drawn = door();
  EXPECT_EQ(sheetOf(drawn, "left_stile").ink.marks, sheetOf(drawn, "left_stile").ink.marks);
}

TEST(PartDrawing, DimensionsAMortiseFromTheDatumEnd) {
  // The stile's mortises run from 20 to 51 and from 549 to 580 mm.
  const Sheet sheet = sheetOf(door(), "left_stile");
  for (const char* place : {"20", "51", "549", "580"}) EXPECT_TRUE(hasText(sheet, place)) << place;
  const std::vector<Text> texts = textsOf(sheet);
  EXPECT_TRUE(std::ranges::any_of(texts, [](const Text& t) {
    return t.text.starts_with("Datum: right end (bottom in the piece).");
  })) << "the stile's lower end lies at the right when the face edge is up";
}

TEST(PartDrawing, SaysThatAPartIsOneOfAMirroredPair) {
  const DrawnPiece drawn = makeDrawable(bookcasePiece());
  const auto& left = groupOf(drawn, "left_side");
  const auto& right = groupOf(drawn, "right_side");
  ASSERT_NE(left.number, right.number);
  EXPECT_TRUE(
      hasText(sheetOf(drawn, "left_side"),
              "Mirror image of part " + std::to_string(right.number) + ": mark as a pair."));
  EXPECT_TRUE(hasText(sheetOf(drawn, "right_side"),
                      "Mirror image of part " + std::to_string(left.number) + ": mark as a pair."));
}

TEST(PartDrawing, GivesASlopedHousingByItsPlacesOnBothEdges) {
  // A board 100 wide; a housing 12 wide crosses it at 30 degrees with its middle line through
  // x = 200 at y = 50. Along the part it is 12 / cos 30 wide and moves 100 tan 30 from edge to
  // edge.
  const joinery::Piece piece = slopedHousingPiece();
  const auto slope = exporting::slopeOf(piece.parts.front().features.front());
  ASSERT_TRUE(slope.has_value());
  EXPECT_NEAR(slope->width, 12, 1e-9);
  EXPECT_NEAR(std::fabs(slope->degrees), 30, 1e-9);
  const double half = 6 / std::cos(std::numbers::pi / 6);
  const double lean = 50 * std::tan(std::numbers::pi / 6);
  const auto low = slope->sidesAt(0);
  const auto high = slope->sidesAt(100);
  EXPECT_NEAR(low[0], 200 + lean - half, 1e-9);
  EXPECT_NEAR(low[1], 200 + lean + half, 1e-9);
  EXPECT_NEAR(high[0], 200 - lean - half, 1e-9);
  const auto rows = exporting::featureRows(piece, piece.parts.front(), joinery::Unit::mm);
  EXPECT_EQ(rows.front().start, "221.9 at face edge, 164.2 at opposite edge");
  EXPECT_EQ(rows.front().size, "12 wide");
  const DrawnPiece drawn = makeDrawable(piece);
  expectGoodSheet(sheetOf(drawn, "board"));
}

std::vector<exporting::FeatureRow> rowsOf(const joinery::Piece& piece) {
  return exporting::featureRows(piece, piece.parts.front(), joinery::Unit::mm);
}

TEST(PartDrawing, GivesEverySlopedHousingItsOwnPlaces) {
  // The second stands 300 mm farther along than the first, so both its places do: 221.9 and 164.2
  // are worked out above.
  const auto rows = rowsOf(slopedHousingPiece({{100, 30}, {400, 30}}));
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[0].start, "221.9 at face edge, 164.2 at opposite edge");
  EXPECT_EQ(rows[1].start, "521.9 at face edge, 464.2 at opposite edge");
}

TEST(PartDrawing, KeepsOppositeSlopesApart) {
  const auto rows = rowsOf(slopedHousingPiece({{100, 30}, {100, -30}}));
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[0].start, "221.9 at face edge, 164.2 at opposite edge");
  EXPECT_EQ(rows[1].start, "164.2 at face edge, 221.9 at opposite edge");
}

TEST(PartDrawing, SaysOfBothEdgesOnlyWhatIsTrueOfBoth) {
  const auto same = rowsOf(tonguesPiece(40, 40));
  ASSERT_EQ(same.size(), 1U);
  EXPECT_EQ(same[0].name, "Tongue on both edges");
  EXPECT_EQ(same[0].start, "40");
  const auto apart = rowsOf(tonguesPiece(40, 60));
  ASSERT_EQ(apart.size(), 2U);
  EXPECT_EQ(apart[0].start, "40");
  EXPECT_EQ(apart[1].start, "60");
}

TEST(PartDrawing, HatchesSectionsOnly) {
  const Sheet sheet = sheetOf(door(), "left_stile");
  const bool hatched = std::ranges::any_of(sheet.ink.marks, [](const Mark& mark) {
    const auto* stroke = std::get_if<Stroke>(&mark);
    return stroke != nullptr && stroke->layer == Layer::hatching;
  });
  EXPECT_TRUE(hatched);
}

/// A drawer without its back: front 20 thick that laps the sides by 8, sides 12 thick, and a bottom
/// in grooves 6 deep.
DrawnPiece drawer() {
  const auto file = joinery::ModelFile::parse(
      R"({"format": "dryfit-model", "version": 1, "name": "Drawer", "unit": "mm",
          "materials": {"ash": {"kind": "solid", "species": "white ash", "thickness": 20},
                        "thin": {"kind": "solid", "species": "white ash", "thickness": 12},
                        "ply": {"kind": "sheet", "species": "birch plywood", "thickness": 6}},
          "parts": {
            "front": {"material": "ash", "length": {"along": "x", "from": 0, "size": 300},
              "width": {"along": "z", "from": 0, "size": 100},
              "thickness": {"along": "y", "from": 0}, "face_side": "front", "face_edge": "bottom"},
            "left": {"material": "thin", "length": {"along": "y", "from": "front.back", "size": 280},
              "width": {"along": "z", "from": 0, "size": 100},
              "thickness": {"along": "x", "from": 0}, "face_side": "right", "face_edge": "bottom"},
            "right": {"material": "thin", "length": {"along": "y", "from": "front.back", "size": 280},
              "width": {"along": "z", "from": 0, "size": 100},
              "thickness": {"along": "x", "to": 300}, "face_side": "left", "face_edge": "bottom"},
            "base": {"material": "ply",
              "length": {"along": "x", "from": "left.right", "to": "right.left"},
              "width": {"along": "y", "from": "front.back", "to": "left.back"},
              "thickness": {"along": "z", "from": 8}, "face_side": "top", "face_edge": "front"}},
          "joints": {
            "left_corner": {"kind": "rebate", "inset": "left", "rebated": "front",
              "open_face": "left", "depth": 12},
            "right_corner": {"kind": "rebate", "inset": "right", "rebated": "front",
              "open_face": "right", "depth": 12},
            "base_groove": {"kind": "panel-groove", "panel": "base",
              "frame": ["left", "right", "front"], "groove_depth": 6}}})",
      "drawer");
  return makeDrawable(joinery::evaluate(file.value().model(), joinery::Basis::drawn).value());
}

const exporting::FeatureRow& rowOf(const std::vector<exporting::FeatureRow>& rows,
                                   joinery::Purpose purpose) {
  const auto found = std::ranges::find(rows, purpose, &exporting::FeatureRow::purpose);
  if (found == rows.end()) throw std::invalid_argument("no such row");
  return *found;
}

TEST(PartDrawing, GivesTheWholeLengthOfAGrooveThatEndsInThePartsOwnTongue) {
  // 280 between shoulder and back end, and 6 on into the tongue of 12 that the front laps.
  const DrawnPiece drawn = drawer();
  const Sheet sheet = sheetOf(drawn, "left");
  expectGoodSheet(sheet);
  const auto& part = drawn.piece.parts[groupOf(drawn, "left").parts.front().index()];
  const auto rows = exporting::featureRows(drawn.piece, part, joinery::Unit::mm);
  const auto& groove = rowOf(rows, joinery::Purpose::groove);
  const joinery::Feature& feature = part.features[groove.features.front()];
  ASSERT_NEAR(exporting::workedExtent(part, feature).min.x, -6, 1e-9);
  EXPECT_FALSE(exporting::reachesBothEnds(part, feature, 0));
  EXPECT_EQ(groove.start, "6 beyond datum");
  EXPECT_THAT(groove.size, testing::StartsWith("286 × "));
  for (const char* words : {"6", "286", "292 overall, with tongues"}) {
    EXPECT_TRUE(hasText(sheet, words)) << words;
  }
}

TEST(PartDrawing, NamesBesideATongueOnlyTheMemberThatItsSideMeets) {
  const DrawnPiece drawn = drawer();
  const auto& base = drawn.piece.parts[groupOf(drawn, "base").parts.front().index()];
  std::map<std::string, std::string> mates;
  for (const auto& row : exporting::featureRows(drawn.piece, base, joinery::Unit::mm)) {
    mates[row.name] = row.mate;
  }
  EXPECT_EQ(mates["Tongue on both ends"], "left, right");
  EXPECT_EQ(mates["Tongue on face edge"], "front");
}

TEST(PartDrawing, FillsItsSheetWithAWidePartJointedOnBothSides) {
  // Housings in both faces of a wide, short board: four views, and yet not at 1:10.
  const DrawnPiece drawn = makeDrawable(housedBothSidesPiece());
  const Sheet sheet = sheetOf(drawn, "board");
  expectGoodSheet(sheet);
  EXPECT_FALSE(hasText(sheet, "1:10"));
  EXPECT_EQ(sheet.format, "A3");
  EXPECT_LE(emptyShare(sheet), 0.3);
}

/// A spar 700 long and 40 square whose width and thickness taper to the given ends.
DrawnPiece taperedSpar(const std::string& widthEnd, const std::string& thicknessEnd) {
  const auto file = joinery::ModelFile::parse(
      R"({"format": "dryfit-model", "version": 1, "name": "Spar", "unit": "mm",
          "materials": {"ash": {"kind": "solid", "species": "white ash", "thickness": 40}},
          "parts": {"spar": {"material": "ash",
            "length": {"along": "z", "from": 0, "size": 700},
            "width": {"along": "x", "from": 0, "size": 40},
            "thickness": {"along": "y", "from": 0}, "face_side": "front", "face_edge": "left"}},
          "tapers": {
            "inside": {"parts": ["spar"], "size": "width", "narrow_end": ")" +
          widthEnd + R"(", "by": 10, "from": 120},
            "behind": {"parts": ["spar"], "size": "thickness", "narrow_end": ")" +
          thicknessEnd + R"(", "by": 6, "from": 200}}})",
      "spar");
  return makeDrawable(joinery::evaluate(file.value().model(), joinery::Basis::drawn).value());
}

/// How far right a text stands on the sheet; fails the test where it is not there.
double placeOf(const Sheet& sheet, const std::string& wanted) {
  for (const Text& text : textsOf(sheet)) {
    if (text.text == wanted) return text.at.x;
  }
  ADD_FAILURE() << "no text " << wanted;
  return 0;
}

TEST(PartDrawing, DimensionsATaperByBothEndsAndItsLength) {
  // 40 less 10 and less 6 at the narrow ends; 700 less 120 and less 200 along the spar.
  for (const std::string end : {"bottom", "top"}) {
    const Sheet sheet = sheetOf(taperedSpar(end, end), "spar");
    expectGoodSheet(sheet);
    for (const char* words : {"700", "40", "30", "34", "580 tapered", "500 tapered"}) {
      EXPECT_TRUE(hasText(sheet, words)) << words;
    }
    EXPECT_TRUE(hasText(
        sheet, "Taper: narrows to 30 at the " + end + " over 580, opposite the face edge."));
    // Each size stands at its own end.
    const bool narrowIsLeft = placeOf(sheet, "30") < placeOf(sheet, "40");
    EXPECT_EQ(narrowIsLeft, placeOf(sheet, "34") < placeOf(sheet, "40"));
    EXPECT_EQ(narrowIsLeft, end == "bottom") << "the datum end of an upright part is its bottom";
  }
  expectGoodSheet(sheetOf(taperedSpar("top", "bottom"), "spar"));
}

TEST(PartDrawing, StrikesNoDimensionThroughWithTheLineOfAnother) {
  // A drawer side at 1:2: its groove ends within the tongue, whose room is too small for texts.
  using exporting::Side;
  using exporting::SpanDimension;
  for (const Side side : {Side::top, Side::bottom}) {
    exporting::Gutter gutter(side, {{0, 0}, {173, 56}});
    gutter.add(SpanDimension{167, 170, "6"});
    gutter.add(SpanDimension{167, 173, "12"});
    gutter.add(SpanDimension{0, 167, "334 sight size"});
    gutter.add(SpanDimension{0, 170, "340"});
    gutter.add(SpanDimension{0, 173, "346 overall, with tongues"});
    gutter.setOrigin(167);
    gutter.add(exporting::RunningValue{7, "320.1"});
    gutter.add(exporting::RunningValue{13, "307.9"});
    gutter.add(exporting::RunningValue{167, "0"});
    exporting::Ink ink;
    gutter.draw(ink);
    std::vector<Text> texts;
    std::vector<Stroke> strokes;
    for (const Mark& mark : ink.marks) {
      if (const auto* text = std::get_if<Text>(&mark)) texts.push_back(*text);
      if (const auto* stroke = std::get_if<Stroke>(&mark)) strokes.push_back(*stroke);
    }
    EXPECT_EQ(texts.size(), 8U);
    for (const Text& text : texts) {
      // Figures do not reach below their base line.
      Box2 box = exporting::textBox(text);
      (text.rotation == 90 ? box.max.x : box.min.y) = text.rotation == 90 ? text.at.x : text.at.y;
      for (const Stroke& stroke : strokes) {
        Box2 reach;
        for (const auto& point : stroke.points) reach.add(point);
        // Lines along the paper's edges: their boxes are they themselves.
        if (std::min(reach.width(), reach.height()) > 0) continue;
        EXPECT_FALSE(reach.overlaps(box)) << text.text << " at " << text.at.x;
      }
    }
  }
}

}  // namespace
}  // namespace dryfit::test

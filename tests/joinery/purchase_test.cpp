#include "joinery/stock/purchase.h"

#include "joinery/joints/evaluate.h"

#include <gmock/gmock.h>

#include <cmath>

#include "joinery/fit/dry_fit.h"
#include "joinery/stock/board_feet.h"
#include "joinery/trade/allowances.h"
#include "tests/joinery/model_samples.h"

namespace dryfit::joinery {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

constexpr double kIn = 25.4, kFt = 12 * kIn;

// mikestools.com and powershardwoods.com, on the board foot: T (in) x W (in) x L (ft) / 12;
// 1 x 6 x 96 in is 4 board feet, 5/4 x 6 x 72 in is 3.75, and wood under 1 in counts as 1 in.
TEST(BoardFeet, AreThePublishedOnes) {
  EXPECT_NEAR(boardFeet(96 * kIn, 6 * kIn, 1 * kIn), 4, 1e-9);
  EXPECT_NEAR(boardFeet(72 * kIn, 6 * kIn, 1.25 * kIn), 3.75, 1e-9);
  EXPECT_NEAR(boardFeet(96 * kIn, 6 * kIn, 0.5 * kIn), 4, 1e-9);
  EXPECT_NEAR(boardFeet(10 * kFt, 8 * kIn, 2 * kIn), 13 + 1.0 / 3, 1e-9);
  EXPECT_NEAR(kBoardFoot / 1000, 2359.737, 1e-3);  // cm³
}

// goodwoodcorp.com, hardwood terminology: length in whole feet times width over 12, rounded to a
// whole surface measure, times the nominal thickness.
TEST(BoardFeet, AreTalliedAsTheTradeDoes) {
  EXPECT_DOUBLE_EQ(tallyBoardFeet(8 * kFt, 6 * kIn, 1 * kIn), 4);
  // 8 ft 11 in counts as 8 ft; 8 x 7.5 / 12 = 5.
  EXPECT_DOUBLE_EQ(tallyBoardFeet(8 * kFt + 11 * kIn, 7.5 * kIn, 1 * kIn), 5);
  // 10 x 8 / 12 = 6.67, counts as 7; times 8/4.
  EXPECT_DOUBLE_EQ(tallyBoardFeet(10 * kFt, 8 * kIn, 2 * kIn), 14);
  EXPECT_DOUBLE_EQ(tallyBoardFeet(72 * kIn, 6 * kIn, 1.25 * kIn), 3.75);
  EXPECT_DOUBLE_EQ(tallyBoardFeet(6 * kFt, 6 * kIn, 0.75 * kIn), 3);
}

TEST(BoardFeet, CountMetricThicknessesByTheQuartersTheyReach) {
  EXPECT_EQ(quartersOf(20), 4);
  EXPECT_EQ(quartersOf(27), 4);
  EXPECT_EQ(quartersOf(33), 5);
  EXPECT_EQ(quartersOf(40), 6);
  EXPECT_EQ(quartersOf(52), 8);
  EXPECT_EQ(quartersOf(65), 10);
  EXPECT_EQ(quartersOf(80), 12);
}

PurchaseList purchaseOf(const std::string& text) {
  const auto fit = dryFit(fileFrom(text).model(), Basis::drawn);
  if (!fit) throw std::runtime_error(fit.error().line());
  const auto list = makePurchaseList(fit->piece, fit->solids);
  if (!list) throw std::runtime_error(list.error().line());
  return *list;
}

TEST(Purchase, TimberAddsUp) {
  const PurchaseList list = purchaseOf(pricedDoor());
  const Piece piece = pieceFrom(pricedDoor());
  ASSERT_EQ(list.timber.size(), 1U);
  const TimberRow& row = list.timber[0];
  EXPECT_EQ(row.species, "white oak");
  EXPECT_EQ(row.soldThickness, 27);
  EXPECT_EQ(row.blanks, 4);
  double rough = 0;
  for (const RoughBlank& one : list.blanks) {
    if (one.blank.form == StockForm::board) rough += one.blank.length * one.blank.width * 27;
  }
  EXPECT_NEAR(row.roughVolume, rough, 1e-6);
  EXPECT_NEAR(row.buyVolume, 1.2 * rough, 1e-6);
  EXPECT_LT(row.netVolume, row.roughVolume);
  EXPECT_NEAR(row.boardFeet, row.buyVolume / kBoardFoot, 1e-9);
  EXPECT_GE(row.tally, row.buyVolume / 27 / (kFt * kFt) - 1e-9);
  EXPECT_NEAR(*row.cost, row.buyVolume / 1e9 * 4000, 1e-9);
}

TEST(Purchase, CountsEveryFinishedVolumeOnceHoweverPartsAreSplit) {
  std::string text = replaced(doorText(), "\"thickness\": 23}",
                              R"("thickness": 23, "rough": {"strip_width": [10, 20]}})");
  text = replaced(text, "\"label\": \"Left stile\"", R"("label": "Left stile", "spare": 2)");
  const auto fit = dryFit(fileFrom(text).model(), Basis::drawn);
  ASSERT_TRUE(fit) << fit.error().line();
  const auto list = makePurchaseList(fit->piece, fit->solids);
  ASSERT_TRUE(list) << list.error().line();
  double finished = 0;
  for (const PlacedPart& part : fit->piece.parts) {
    if (fit->piece.part(part.id).material != "oak") continue;
    finished += part.overall().volume() * (1 + fit->piece.part(part.id).spare);
  }
  double net = 0;
  for (const TimberRow& row : list->timber) net += row.netVolume;
  EXPECT_NEAR(net, finished, 1e-6 * finished);
}

TEST(Purchase, SheetsEdgingHardwareAndFinishAreCounted) {
  const PurchaseList list = purchaseOf(pricedDoor());
  ASSERT_EQ(list.sheets.size(), 1U);
  EXPECT_EQ(list.sheets[0].count, 1);
  EXPECT_EQ(list.sheets[0].cost, 60);
  const Piece piece = evaluate(fileFrom(pricedDoor()).model(), Basis::drawn).value();
  const kernel::Vec3 panel = partNamed(piece, "panel").overall().size();
  EXPECT_NEAR(list.sheets[0].area, panel.x * panel.y, 1e-9);
  ASSERT_EQ(list.edging.size(), 1U);
  // The left edge runs along the panel's length, the top along its width; 40 mm an edge for the
  // ends, and a tenth on top.
  EXPECT_NEAR(list.edging[0].length, panel.x + panel.y, 1e-9);
  EXPECT_NEAR(list.edging[0].buyLength, 1.1 * (panel.x + panel.y + 80), 1e-9);
  ASSERT_EQ(list.hardware.size(), 2U);
  EXPECT_EQ(list.hardware[0].name, "butt hinge");
  EXPECT_EQ(list.hardware[0].cost, 15);
  EXPECT_NEAR(list.finish.litres, list.finish.sightArea / 1e6 * 2 / 10, 1e-12);
  EXPECT_GT(list.finish.allFaces, list.finish.sightArea);
  EXPECT_THAT(list.notPriced, ElementsAre("knob"));
  EXPECT_NEAR(list.total, *list.timber[0].cost + 60 + *list.edging[0].cost + 15 + *list.finish.cost,
              1e-9);
}

TEST(Purchase, SightAreaLeavesOutWhatJointsCover) {
  // A frame of four with a panel: by hand, from the sizes as drawn. Stiles 600 x 62, rails 276 x
  // 87.4 between them, all 23 thick; the panel's sight size is 276 x 425.2, 6 thick. Joints cover
  // 87.4 x 23 at top and bottom (only the top rail is joined) and 6 mm all round the panel.
  const Piece piece = evaluate(fileFrom(doorText()).model(), Basis::drawn).value();
  const auto faces = [](double a, double b, double c) { return 2 * (a * b + b * c + c * a); };
  const double rail = 62 + 25.4, high = 600 - 2 * rail;
  const double all = 2 * faces(600, 62, 23) + 2 * faces(276, rail, 23) + faces(276, high, 6);
  const double covered = 2 * (2 * rail * 23)           // the top rail's two ends
                         + 2 * (2 * (276 + high) * 6)  // the panel's edges
                         + 2 * (2 * rail * 23);        // the bottom rail's ends, mates of the field
  EXPECT_NEAR(sightArea(piece), all - covered, 1e-6);
}

TEST(Purchase, CountsSheetsByTheLargestPartsToo) {
  // Each part covers the middle of a sheet, so no two go on one, whatever their area.
  std::string text = R"({"format": "dryfit-model", "version": 1, "name": "Tops", "unit": "mm",
    "materials": {"ply": {"kind": "sheet", "thickness": 12,
                          "rough": {"sheet": [1000, 1000], "waste": 0}}},
    "parts": {)";
  for (int i = 0; i < 3; ++i) {
    text += fmt::format(
        R"({}"p{}": {{"material": "ply", "length": {{"along": "x", "from": 0, "size": 520}},
        "width": {{"along": "y", "from": 0, "size": 510}}, "thickness": {{"along": "z", "from": {}}}}})",
        i ? "," : "", i, 20 * i);
  }
  text += "}}";
  const PurchaseList list = purchaseOf(text);
  EXPECT_EQ(list.sheets[0].countByArea, 1);
  EXPECT_EQ(list.sheets[0].countByLargest, 3);
  EXPECT_EQ(list.sheets[0].count, 3);
  const PurchaseList large = purchaseOf(replaced(text, "\"size\": 520", "\"size\": 1100"));
  EXPECT_THAT(large.sheets[0].tooLarge, ElementsAre("p0"));
}

TEST(Purchase, BuysTwoMaterialsOfOneSheetTogether) {
  const std::string text = R"({"format": "dryfit-model", "version": 1, "name": "Box", "unit": "mm",
    "materials": {
      "case": {"kind": "sheet", "species": "birch plywood", "thickness": 12,
               "rough": {"sheet": [1000, 1000], "waste": 0}},
      "bottoms": {"kind": "sheet", "species": "birch plywood", "thickness": 12,
                  "rough": {"sheet": [1000, 1000], "waste": 0.2}}},
    "parts": {
      "side": {"material": "case", "length": {"along": "x", "from": 0, "size": 900},
               "width": {"along": "y", "from": 0, "size": 300},
               "thickness": {"along": "z", "from": 0}},
      "bottom": {"material": "bottoms", "length": {"along": "x", "from": 0, "size": 800},
                 "width": {"along": "y", "from": 0, "size": 400},
                 "thickness": {"along": "z", "from": 100}}}})";
  const PurchaseList list = purchaseOf(text);
  ASSERT_EQ(list.sheets.size(), 1U);
  EXPECT_THAT(list.sheets[0].materials, ElementsAre("case", "bottoms"));
  EXPECT_EQ(list.sheets[0].blanks, 2);
  double shares = 0;  // each material with the waste that the model gives it
  for (const RoughBlank& one : list.blanks) {
    const double area = one.blank.length * one.blank.width;
    shares += one.blank.material == "case" ? area : 1.2 * area;
  }
  EXPECT_NEAR(list.sheets[0].buyArea, shares, 1e-6);
  const PurchaseList apart = purchaseOf(replaced(text, "\"thickness\": 12,\n                  ",
                                                 "\"thickness\": 9,\n                  "));
  EXPECT_EQ(apart.sheets.size(), 2U);
}

TEST(Purchase, TakesDowelsFromTheJoints) {
  const std::string text = replaced(
      doorText(), R"("kind": "blind-mortise-tenon", "tenon": "top_rail", "mortise": "left_stile")",
      R"("kind": "dowels", "end": "top_rail", "face": "left_stile")");
  const PurchaseList list = purchaseOf(text);
  ASSERT_EQ(list.hardware.size(), 1U);
  EXPECT_THAT(list.hardware[0].name, HasSubstr("dowel"));
  EXPECT_GE(list.hardware[0].count, 2);
  EXPECT_THAT(list.notPriced, Contains(list.hardware[0].name));
}

TEST(PurchaseKeys, KeepTheAuthorsTextAndOrder) {
  const ModelFile file = fileFrom(pricedDoor());
  const std::string once = file.text();
  EXPECT_EQ(fileFrom(once).text(), once);
  EXPECT_LT(once.find("\"strip\""), once.find("\"butt_hinge\""));
  EXPECT_THAT(once, HasSubstr(R"("rough": {"price": 4000, "waste": 0.2})"));
  EXPECT_EQ(file.model().hardware.size(), 2U);
  EXPECT_EQ(file.model().finish->coats, 2);
  EXPECT_EQ(file.model().materials[0].rough.waste, 0.2);
}

TEST(PurchaseKeys, AreCheckedWithTheirPlace) {
  struct Case {
    std::string from, to, place, said;
  };
  const std::vector<Case> cases{
      {"\"waste\": 0.2", "\"waste\": 20", "materials.oak.rough.waste", "0.25 for 25 %"},
      {"\"waste\": 0.2", "\"wast\": 0.2", "materials.oak.rough.wast", "did you mean 'waste'"},
      {"\"waste\": 0.2", "\"sheet\": [1, 2]", "materials.oak.rough.sheet", "unknown key"},
      {"\"waste\": 0.2", "\"sold_as\": [33, 27]", "materials.oak.rough.sold_as[1]", "rising"},
      {"\"waste\": 0.2", "\"strip_width\": [90, 60]", "materials.oak.rough.strip_width", "greater"},
      {"\"waste\": 0.2", "\"length\": \"stile_width\"", "materials.oak.rough.length", "by itself"},
      {"\"price\": 4000", "\"price\": -1", "materials.oak.rough.price", "between 0"},
      {"\"edging\": \"strip\"", "\"edging\": \"stripe\"", "materials.ply.edging", "'strip'"},
      {"[\"left\", \"top\"]", "[\"left\", \"front\"]", "parts.panel.edging[1]", "not an edge"},
      {"[\"left\", \"top\"]", "[\"left\", \"left\"]", "parts.panel.edging[1]", "twice"},
      {"\"edging\": \"strip\", ", "", "parts.panel.edging[0]", "names no edging"},
      {"\"count\": 2", "\"count\": 0", "hardware.butt_hinge.count", "between 1"},
      {"\"coats\": 2", "\"coats\": 1.5", "finish.coats", "whole number"},
      {"\"EUR\"", "\"a very long currency\"", "currency", "too long"},
  };
  for (const Case& one : cases) {
    SCOPED_TRACE(one.from + " -> " + one.to);
    const auto file = ModelFile::parse(replaced(pricedDoor(), one.from, one.to), "m");
    ASSERT_FALSE(file);
    EXPECT_THAT(file.error().line(), HasSubstr("m: " + one.place + ": "));
    EXPECT_THAT(file.error().line(), HasSubstr(one.said));
  }
}

}  // namespace
}  // namespace dryfit::joinery

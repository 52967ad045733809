#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "joinery/layout/lay_out.h"
#include "tests/support/layout_check.h"

namespace dryfit::joinery {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

Blank sheetPart(const std::string& name, double length, double width) {
  Blank blank;
  blank.name = name;
  blank.material = "ply";
  blank.species = "birch plywood";
  blank.form = StockForm::sheet;
  blank.length = length;
  blank.width = width;
  blank.thickness = 12;
  blank.thicknessMost = 13;
  return blank;
}
StockItem sheet(double length, double width, int count) {
  StockItem item;
  item.name = "sheet " + std::to_string(length);
  item.form = StockForm::sheet;
  item.species = "birch plywood";
  item.length = length;
  item.nearWidth = item.farWidth = width;
  item.thickness = 12.1;
  item.count = count;
  return item;
}
Blank boardPart(const std::string& name, double length, double width) {
  Blank blank;
  blank.name = name;
  blank.material = "oak";
  blank.species = "white oak";
  blank.length = length;
  blank.width = width;
  blank.thickness = 22;
  return blank;
}
StockItem board(const std::string& name, double length, double width, double thickness = 27) {
  StockItem item;
  item.name = name;
  item.species = "white oak";
  item.length = length;
  item.nearWidth = item.farWidth = width;
  item.thickness = thickness;
  return item;
}
Layout laidOut(const std::vector<Blank>& blanks, const std::vector<StockItem>& items,
               const LayoutSettings& settings = {}) {
  StockList stock;
  stock.items = items;
  Layout layout = layOut(blanks, stock, settings).value();
  EXPECT_THAT(test::faultsOf(layout, stock), IsEmpty());
  return layout;
}
LayoutSettings untrimmed() {
  LayoutSettings settings;
  settings.sheetTrim = settings.boardEndTrim = settings.boardEdgeTrim = 0;
  return settings;
}

// 4 × 607.6 + 3 × 3.2 = 2440, by arithmetic.
TEST(Kerf, LeavesFourStripsOf607Point6InASheetOf2440) {
  const Layout layout = laidOut(std::vector<Blank>(4, sheetPart("strip", 607.6, 1220)),
                                {sheet(2440, 1220, 4)}, untrimmed());
  EXPECT_THAT(layout.stock, SizeIs(1));
  EXPECT_THAT(layout.stock[0].cuts, SizeIs(3));
}

TEST(Kerf, LeavesOnlyThreeStripsOf607Point7InASheetOf2440) {
  const Layout layout = laidOut(std::vector<Blank>(4, sheetPart("strip", 607.7, 1220)),
                                {sheet(2440, 1220, 4)}, untrimmed());
  EXPECT_THAT(layout.unplaced, IsEmpty());
  EXPECT_THAT(layout.stock, SizeIs(2));
  EXPECT_NEAR(layout.materials[0].bound, 2 * 2.44 * 1.22, 1e-6);
}

TEST(Kerf, IsExactInInchFractions) {
  LayoutSettings settings = untrimmed();
  settings.boardKerf = settings.sheetKerf = 25.4 / 8;
  const double strip = (48 - 3 * 0.125) / 4 * 25.4;
  const Layout layout = laidOut(std::vector<Blank>(4, sheetPart("strip", strip, 600)),
                                {sheet(48 * 25.4, 600, 2)}, settings);
  EXPECT_THAT(layout.stock, SizeIs(1));
}

TEST(SheetLayout, UsesAnOffcutAtHandBeforeANewSheet) {
  StockItem offcut = sheet(900, 500, 1);
  offcut.offcut = true;
  const Layout layout = laidOut({sheetPart("shelf", 700, 300)}, {sheet(2440, 1220, 1), offcut});
  ASSERT_THAT(layout.stock, SizeIs(1));
  EXPECT_EQ(layout.stock[0].item, 1);
}

TEST(SheetLayout, TakesTheCheaperOfTwoSheetsThatBothDo) {
  StockItem large = sheet(2440, 1220, 1), small = sheet(1525, 1525, 1);
  large.price = 40;
  small.price = 55;
  const Layout layout = laidOut({sheetPart("door", 1200, 600)}, {small, large});
  ASSERT_THAT(layout.stock, SizeIs(1));
  EXPECT_EQ(layout.stock[0].item, 1);
  EXPECT_TRUE(layout.materials[0].byPrice);
  EXPECT_NEAR(layout.materials[0].bound, 40, 1e-6);
}

TEST(SheetLayout, CutsTwoMaterialsOfOneWoodFromOneSheet) {
  std::vector<Blank> blanks{sheetPart("shelf", 900, 400), sheetPart("drawer bottom", 900, 400)};
  blanks[1].material = "bottoms";
  const Layout layout = laidOut(blanks, {sheet(1000, 900, 2)});
  EXPECT_THAT(layout.stock, SizeIs(1));
  ASSERT_THAT(layout.materials, SizeIs(1));
  EXPECT_THAT(layout.materials[0].materials, ElementsAre(blanks[0].material, "bottoms"));
}

TEST(SheetLayout, KeepsAMaterialToItselfThatASheetIsKeptFor) {
  std::vector<Blank> blanks{sheetPart("shelf", 900, 400), sheetPart("drawer bottom", 900, 400)};
  blanks[1].material = "bottoms";
  StockItem kept = sheet(1000, 900, 1);
  kept.material = "bottoms";
  const Layout layout = laidOut(blanks, {sheet(1000, 900, 1), kept});
  EXPECT_THAT(layout.materials, SizeIs(2));
  EXPECT_THAT(layout.unplaced, IsEmpty());
}

/// A scrap that is kept for the backs alone, so that they share no stock with other materials.
StockItem scrapForBacks() {
  StockItem scrap = sheet(100, 100, 1);
  scrap.material = "backs";
  scrap.price = 1;
  return scrap;
}

// Two materials of one wood: whichever is laid out first takes the cheap sheet, and the other has
// to take the dear one. Laid out the other way round it would have had the cheap one.
TEST(LowerBound, CountsTheStockThatAnotherMaterialTook) {
  StockItem cheap = sheet(1000, 500, 1), dear = sheet(1200, 500, 1);
  cheap.price = 10;
  dear.price = 100;
  std::vector<Blank> blanks{sheetPart("a", 900, 400), sheetPart("b", 900, 400)};
  blanks[1].material = "backs";
  const Layout layout = laidOut(blanks, {cheap, dear, scrapForBacks()});
  ASSERT_THAT(layout.materials, SizeIs(2));
  EXPECT_NEAR(layout.materials[0].cost + layout.materials[1].cost, 110, 1e-9);
  for (const MaterialSummary& material : layout.materials) {
    EXPECT_LE(material.bound, 10 + 1e-9) << material.materials.front();
  }
}

TEST(LowerBound, IsAPriceWhereOnlyAnUnpricedOffcutIsLeft) {
  StockItem priced = sheet(1000, 500, 1), offcut = sheet(1000, 450, 1);
  priced.price = 10;
  offcut.offcut = true;
  std::vector<Blank> blanks{sheetPart("a", 900, 470), sheetPart("b", 900, 400)};
  blanks[1].material = "backs";
  const Layout layout = laidOut(blanks, {priced, offcut, scrapForBacks()});
  ASSERT_THAT(layout.materials, SizeIs(2));
  for (const MaterialSummary& material : layout.materials) EXPECT_TRUE(material.byPrice);
}

TEST(SheetLayout, KeepsMatchingFrontsSideBySide) {
  std::vector<Blank> blanks;
  for (int i = 0; i < 3; ++i) blanks.push_back(sheetPart("front", 400, 180));
  for (Blank& blank : blanks) blank.match = "drawer fronts";
  for (int i = 0; i < 6; ++i) blanks.push_back(sheetPart("side", 500, 150));
  const Layout layout = laidOut(blanks, {sheet(1220, 800, 5)});
  EXPECT_THAT(layout.matchesApart, IsEmpty());
  EXPECT_THAT(layout.unplaced, IsEmpty());
}

TEST(SheetLayout, TellsThatAMatchIsTooLargeForAnySheet) {
  std::vector<Blank> blanks(3, sheetPart("door", 1100, 700));
  for (Blank& blank : blanks) blank.match = "doors";
  const Layout layout = laidOut(blanks, {sheet(1220, 800, 5)});
  EXPECT_THAT(layout.matchesApart, testing::ElementsAre("doors"));
  EXPECT_THAT(layout.stock, SizeIs(3));
}

TEST(SheetLayout, TurnsAsOftenAsTheSawAllows) {
  LayoutSettings settings;
  settings.turnsMost = 1;
  std::vector<Blank> blanks;
  for (int i = 0; i < 4; ++i) blanks.push_back(sheetPart("a", 500 + 30 * i, 300 + 40 * i));
  const Layout layout = laidOut(blanks, {sheet(2440, 1220, 4)}, settings);
  EXPECT_THAT(layout.unplaced, IsEmpty());
}

TEST(BoardLayout, SaysWhatToBuyForAPartThatIsTooLong) {
  const Layout layout = laidOut({boardPart("rail", 1240, 90)}, {board("short", 1000, 150)});
  ASSERT_THAT(layout.unplaced, SizeIs(1));
  EXPECT_THAT(layout.unplaced[0].why, HasSubstr("1240 long"));
  EXPECT_THAT(layout.unplaced[0].buy, HasSubstr("a board of white oak, at least 22 thick"));
  EXPECT_THAT(layout.unplaced[0].buy, HasSubstr("1340 x 96"));
}

TEST(BoardLayout, TakesTheThinnestBoardThatDoes) {
  const Layout layout = laidOut({boardPart("rail", 800, 90)},
                                {board("thick", 1000, 150, 40), board("thin", 1000, 150, 27)});
  ASSERT_THAT(layout.stock, SizeIs(1));
  EXPECT_EQ(layout.stock[0].item, 1);
}

TEST(BoardLayout, CutsAroundAKnot) {
  StockItem knotty = board("knotty", 2000, 120);
  knotty.defects.push_back({DefectKind::knot, {950, 40, 60, 50}, StockFace::both});
  const Layout layout =
      laidOut({boardPart("left", 880, 100), boardPart("right", 900, 100)}, {knotty});
  EXPECT_THAT(layout.unplaced, IsEmpty());
}

TEST(BoardLayout, PutsTheWidePartAtTheWideEndOfATaper) {
  StockItem taper = board("taper", 2000, 200);
  taper.nearWidth = 100;
  const Layout layout =
      laidOut({boardPart("wide", 600, 160), boardPart("narrow", 900, 80)}, {taper});
  ASSERT_THAT(layout.unplaced, IsEmpty());
  for (const PlacedBlank& placed : layout.stock[0].blanks) {
    if (placed.blank == 0) {
      EXPECT_GT(placed.at.x, 1000);
    }
  }
}

TEST(BoardLayout, KeepsAMatchOnOneBoard) {
  std::vector<Blank> blanks;
  for (int i = 0; i < 4; ++i) blanks.push_back(boardPart("stile", 600, 60));
  blanks[0].match = blanks[3].match = "door";
  const Layout layout = laidOut(blanks, {board("a", 1400, 80), board("b", 1400, 80)});
  EXPECT_THAT(layout.unplaced, IsEmpty());
  EXPECT_THAT(layout.matchesApart, IsEmpty());
}

TEST(BoardLayout, RefusesABoardWithoutAWidth) {
  StockList stock;
  stock.items = {board("flat", 1000, 0)};
  const auto layout = layOut({boardPart("rail", 800, 90)}, stock, {});
  ASSERT_FALSE(layout);
  EXPECT_EQ(layout.error().code, ErrorCode::badStock);
}

}  // namespace
}  // namespace dryfit::joinery

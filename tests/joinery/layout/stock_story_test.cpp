// A frame from the drawing to the last cut, as it goes in a workshop: drawn, bought, laid out,
// machined to what the wood gave, and cut.

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "joinery/joints/evaluate.h"
#include "joinery/layout/lay_out.h"
#include "joinery/stock/purchase.h"
#include "joinery/stock/rough_sizes.h"
#include "joinery/stock/stock_file.h"
#include "tests/joinery/cupboard_sample.h"
#include "tests/support/layout_check.h"

namespace dryfit::joinery {
namespace {

/// What the yard had: three boards of our own invention, one tapered, one with a knot, and a sheet.
constexpr auto kRack = R"({
  "format": "dryfit-stock", "version": 1, "unit": "mm", "currency": "EUR",
  "sheets": {"birch": {"species": "birch plywood", "thickness": 6, "length": 1250, "width": 1250,
                       "count": 1, "price": 24}},
  "boards": {
    "wide": {"species": "white oak", "length": 2150, "width": [168, 160], "thickness": 27,
             "price": 44},
    "knotty": {"species": "white oak", "length": 1900, "width": 150, "thickness": 27, "price": 30,
               "defects": [{"kind": "knot", "at": [900, 40], "size": [60, 50]}]},
    "short": {"species": "white oak", "length": 1000, "width": 120, "thickness": 27, "price": 16}
  }
})";

class StockStory : public ::testing::Test {
 protected:
  ModelFile file_ = fileFrom(cupboardText());
  StockList rack_ = parseStock(kRack, "rack").value();

  [[nodiscard]] Piece piece(Basis basis) const { return evaluate(file_.model(), basis).value(); }

  [[nodiscard]] Layout laidOut(Basis basis) const {
    const auto rough = roughSizes(piece(basis)).value();
    return layOut(blanksOf(rough), rack_, {}).value();
  }

  /// The boards are planed to 22.3 mm instead of 23 and the stiles ripped to 60.8 mm instead of 62,
  /// then the stiles are cut to length.
  void machineAndCutStiles() {
    using Scope = Measurement::Scope;
    const auto take = [&](Scope scope, const char* name, SizeName size, const char* value) {
      ASSERT_TRUE(file_.setMeasurement({scope, name, size, {value, true}}));
    };
    take(Scope::material, "oak", SizeName::thickness, "22.3");
    take(Scope::part, "left_stile", SizeName::width, "60.8");
    take(Scope::part, "right_stile", SizeName::width, "60.8");
    mark(file_, "left_stile", MarkState::cut);
    mark(file_, "right_stile", MarkState::cut);
  }
};

TEST_F(StockStory, WhatIsBoughtIsEnoughForTheFinishedParts) {
  const DryFit fit = dryFit(file_.model(), Basis::drawn).value();
  ASSERT_EQ(errorsIn(fit), 0);
  const PurchaseList list = makePurchaseList(fit.piece, fit.solids).value();
  ASSERT_EQ(list.timber.size(), 1U);
  double wood = 0;
  for (const PlacedPart& part : fit.piece.parts) {
    if (fit.piece.part(part.id).material == "oak") wood += part.overall().volume();
  }
  EXPECT_NEAR(list.timber[0].netVolume, wood, 1e-6 * wood);
  EXPECT_GT(list.timber[0].roughVolume, wood);
  EXPECT_GT(list.timber[0].buyVolume, list.timber[0].roughVolume);
  ASSERT_EQ(list.sheets.size(), 1U);
  EXPECT_EQ(list.sheets[0].count, 1);
}

TEST_F(StockStory, TheRackHoldsThePieceAndNothingIsCutFromAKnot) {
  const Layout layout = laidOut(Basis::drawn);
  EXPECT_TRUE(layout.unplaced.empty());
  EXPECT_EQ(test::faultsOf(layout, rack_), std::vector<std::string>{});
}

TEST_F(StockStory, WhatWasSawnRoughFromBoardsStillTakesThePartsThatTheWoodMadeLonger) {
  const Layout layout = laidOut(Basis::drawn);
  machineAndCutStiles();
  const Piece now = piece(Basis::measured);
  int longer = 0;
  for (const Blank& blank : layout.blanks) {
    ASSERT_TRUE(blank.part);
    // Sheet goods are cut to size once the frame is made, so they are laid out as measured.
    if (blank.form == StockForm::sheet) continue;
    const PlacedPart& part = now.parts[blank.part->index()];
    const kernel::Vec3 finished = part.overall().size();
    EXPECT_GE(blank.length, finished.x) << blank.name;
    EXPECT_GE(blank.width, finished.y) << blank.name;
    EXPECT_GE(blank.thickness, finished.z) << blank.name;
    longer += finished.x > piece(Basis::drawn).parts[blank.part->index()].overall().size().x + 1;
  }
  EXPECT_EQ(longer, 2) << "both rails grew by what the stiles lost";
}

TEST_F(StockStory, AllThatIsLeftToCutFitsAndWhatIsCutStaysAsItIs) {
  machineAndCutStiles();
  const std::vector<Mark> made = file_.model().marks;
  ASSERT_EQ(made.size(), 2U);
  const DryFit fit = dryFit(file_.model(), Basis::measured).value();
  EXPECT_EQ(errorsIn(fit), 0);
  EXPECT_TRUE(findingsOfKind(fit, FindingKind::locked).empty());
  for (const Mark& mark : made) {
    const kernel::Vec3 size = partNamed(fit.piece, mark.part).overall().size();
    for (int axis = 0; axis < 3; ++axis) EXPECT_NEAR(size[axis], mark.overall[axis], 1e-4);
  }
  for (const char* stile : {"left_stile", "right_stile"}) {
    const kernel::Vec3 size = partNamed(fit.piece, stile).overall().size();
    EXPECT_NEAR(size.y, 60.8, 1e-9);
    EXPECT_NEAR(size.z, 22.3, 1e-9);
  }
  // Between the stiles: 900 - 2 * 20 - 2 * 60.8.
  EXPECT_NEAR(partNamed(fit.piece, "top_rail").size.x, 738.4, 1e-9);
}

TEST_F(StockStory, TheSameRackTakesThePieceAgainAsMeasured) {
  machineAndCutStiles();
  const Layout layout = laidOut(Basis::measured);
  EXPECT_TRUE(layout.unplaced.empty());
  EXPECT_EQ(test::faultsOf(layout, rack_), std::vector<std::string>{});
}

}  // namespace
}  // namespace dryfit::joinery

// What a drawing says of how far grooves, housings and rebates run, and of cuts made as one.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "export/drawing/feature_rows.h"
#include "tests/support/joint_bench.h"

namespace dryfit::test {
namespace {

using exporting::FeatureRow;
using joinery::Piece;
using joinery::Purpose;

TEST(Housing, IsNotStoppedWhereItRunsIntoTheRebateOfTheBack) {
  for (const double rebate : {7.0, 3.0}) {
    ModelText text;
    text.part("side", {"z", 0, 600}, {"y", 0, 200}, {"x", 0, 18})
        .part("shelf", {"x", 18, 400}, {"y", 0, 194}, {"z", 300, 20})
        .part("back", {"z", 0, 600}, {"x", 18, 400}, {"y", 194, 6})
        .joint("back",
               {{"kind", "rebate"}, {"inset", "back"}, {"rebated", "side"}, {"depth", rebate}})
        .joint("housing",
               {{"kind", "through-housing"}, {"shelf", "shelf"}, {"side", "side"}, {"depth", 6}});
    const Piece piece = pieceOf(text);
    const auto& side = partNamed(piece, "side");
    EXPECT_EQ(exporting::stoppedEnds(side, featureOf(side, Purpose::housing)), rebate > 6 ? 0 : 1)
        << rebate;
  }
}

/// A back of two panels: stiles, a rail under them and a muntin between them, stub-tenoned into the
/// rail's groove.
Piece dividedFrame() {
  ModelText text;
  text.part("left", {"z", 0, 600}, {"x", 0, 60}, {"y", 0, 24})
      .part("right", {"z", 0, 600}, {"x", 740, 60}, {"y", 0, 24})
      .part("rail", {"x", 60, 680}, {"z", 0, 80}, {"y", 0, 24})
      .part("muntin", {"z", 80, 520}, {"x", 370, 60}, {"y", 0, 24})
      .part("panel", {"z", 80, 520}, {"x", 60, 310}, {"y", 8.15, 7.7})
      .part("other_panel", {"z", 80, 520}, {"x", 430, 310}, {"y", 8.15, 7.7})
      .joint("panel",
             {{"kind", "panel-groove"}, {"panel", "panel"}, {"frame", {"left", "rail", "muntin"}}})
      .joint("other_panel", {{"kind", "panel-groove"},
                             {"panel", "other_panel"},
                             {"frame", {"right", "rail", "muntin"}}})
      .joint("foot", {{"kind", "stub-tenon-groove"}, {"tenon", "muntin"}, {"groove", "rail"}})
      .joint("corner", {{"kind", "haunched-mortise-tenon"},
                        {"tenon", "rail"},
                        {"mortise", "left"},
                        {"haunch", "bottom"}});
  return pieceOf(text);
}

TEST(Groove, OfTwoPanelsAndAMuntinIsPloughedOnceAndTellsTheMuntinsPlace) {
  const Piece piece = dividedFrame();
  const auto& rail = partNamed(piece, "rail");
  std::vector<FeatureRow> grooves;
  for (const FeatureRow& row : exporting::featureRows(piece, rail, joinery::Unit::mm)) {
    if (row.purpose == Purpose::groove) grooves.push_back(row);
  }
  ASSERT_EQ(grooves.size(), 2U);
  const auto isMuntins = [](const FeatureRow& row) { return row.mate == "muntin"; };
  const auto muntin = std::ranges::find_if(grooves, isMuntins);
  const auto panels = std::ranges::find_if_not(grooves, isMuntins);
  ASSERT_TRUE(muntin != grooves.end() && panels != grooves.end());
  EXPECT_EQ(panels->start, "full length");
  EXPECT_EQ(panels->mate, "panel, other panel");
  EXPECT_EQ(exporting::countOf(rail, *panels), 1);
  EXPECT_EQ(muntin->start, "310");
  EXPECT_THAT(muntin->name, testing::EndsWith(", cut with " + panels->letter));
  EXPECT_THAT(muntin->size, testing::StartsWith("60 × "));
}

TEST(Groove, TakesTheHaunchSocketInItsLineAlong) {
  const Piece piece = dividedFrame();
  const auto& stile = partNamed(piece, "left");
  const auto rows = exporting::featureRows(piece, stile, joinery::Unit::mm);
  const auto socket = std::ranges::find(rows, Purpose::haunchSocket, &FeatureRow::purpose);
  const auto groove = std::ranges::find(rows, Purpose::groove, &FeatureRow::purpose);
  const auto mortise = std::ranges::find(rows, Purpose::mortise, &FeatureRow::purpose);
  ASSERT_TRUE(socket != rows.end() && groove != rows.end() && mortise != rows.end());
  EXPECT_THAT(socket->name, testing::EndsWith(", cut with " + groove->letter));
  EXPECT_EQ(groove->start, "full length");
  EXPECT_THAT(mortise->name, testing::Not(testing::HasSubstr("cut with")));
}

TEST(Groove, ThatEndsInTheWoodIsStoppedThere) {
  ModelText text;
  text.part("left", {"z", 0, 600}, {"x", 0, 60}, {"y", 0, 24})
      .part("panel", {"z", 100, 400}, {"x", 60, 310}, {"y", 8.15, 7.7})
      .joint("panel", {{"kind", "panel-groove"}, {"panel", "panel"}, {"frame", "left"}});
  const Piece piece = pieceOf(text);
  const auto& left = partNamed(piece, "left");
  const auto& groove = featureOf(left, Purpose::groove);
  EXPECT_EQ(exporting::stoppedEnds(left, groove), 2);
  EXPECT_FALSE(exporting::cutWith(left, groove));
}

}  // namespace
}  // namespace dryfit::test

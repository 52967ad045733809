// What is said of a cutting layout in JSON, in words, and in the stock list it leaves.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "export/layout/layout_json.h"
#include "export/layout/layout_words.h"
#include "export/layout/remaining_stock.h"
#include "joinery/stock/stock_file.h"
#include "tests/support/made_layouts.h"

namespace dryfit::testing {
namespace {

using exporting::LayoutJob;
using nlohmann::json;
using ::testing::HasSubstr;
using ::testing::UnorderedElementsAre;

std::vector<std::string> keysOf(const json& object) {
  std::vector<std::string> keys;
  for (const auto& [key, value] : object.items()) keys.push_back(key);
  return keys;
}

TEST(LayoutJson, HasTheDocumentedKeys) {
  const json report = json::parse(exporting::layoutJson(sheetJob()));
  EXPECT_THAT(keysOf(report), UnorderedElementsAre("report", "version", "piece", "basis",
                                                   "finished", "currency", "settings", "materials",
                                                   "stock", "unplaced", "matches_apart", "safety"));
  EXPECT_THAT(
      keysOf(report["settings"]),
      UnorderedElementsAre("sheet_method", "board_kerf_mm", "sheet_kerf_mm", "sheet_trim_mm",
                           "board_end_trim_mm", "board_edge_trim_mm", "turns_most",
                           "offcut_length_least_mm", "offcut_width_least_mm"));
  EXPECT_THAT(keysOf(report["materials"][0]),
              UnorderedElementsAre("material", "materials", "blanks", "placed", "blank_area_mm2",
                                   "stock_area_mm2", "use", "cost", "cost_in", "bound", "bound_by",
                                   "cuts"));
  const json& one = report["stock"][0];
  EXPECT_THAT(keysOf(one),
              UnorderedElementsAre("name", "form", "copy", "material", "materials", "length_mm",
                                   "width_mm", "thickness_mm", "use", "blanks", "cuts", "offcuts"));
  EXPECT_THAT(keysOf(one["blanks"][0]), UnorderedElementsAre("blank", "number", "label", "material",
                                                             "rough_mm", "at", "turned"));
  EXPECT_THAT(keysOf(one["cuts"][0]), UnorderedElementsAre("piece", "kind", "at_mm"));
  EXPECT_THAT(
      keysOf(report["unplaced"][0]),
      UnorderedElementsAre("blank", "number", "label", "material", "rough_mm", "why", "buy"));
}

TEST(LayoutJson, AgreesWithItselfInItsTotals) {
  for (std::uint32_t seed = 1; seed <= 20; ++seed) {
    SCOPED_TRACE(seed);
    const json report = json::parse(exporting::layoutJson(randomJob(seed)));
    for (const json& material : report["materials"]) {
      double area = 0;
      std::size_t cuts = 0;
      std::size_t placed = 0;
      for (const json& one : report["stock"]) {
        if (one["material"] != material["material"]) continue;
        cuts += one["cuts"].size();
        placed += one["blanks"].size();
        for (const json& blank : one["blanks"]) {
          area += blank["at"]["length_mm"].get<double>() * blank["at"]["width_mm"].get<double>();
        }
      }
      EXPECT_EQ(placed, material["placed"].get<std::size_t>());
      EXPECT_EQ(cuts, material["cuts"].get<std::size_t>());
      EXPECT_NEAR(area, material["blank_area_mm2"].get<double>(), 1e-3);
      EXPECT_NEAR(area / material["stock_area_mm2"].get<double>(), material["use"].get<double>(),
                  1e-9);
    }
  }
}

TEST(LayoutReport, SaysWhatIsUsedWhatItCostsAndWhatToBuy) {
  const std::string text = exporting::layoutReport(sheetJob());
  EXPECT_THAT(text, HasSubstr("Cutting layout of Tool cabinet, sizes as drawn, in mm"));
  EXPECT_THAT(text, HasSubstr("41 of 42"));
  EXPECT_THAT(text, HasSubstr("250.00 crowns"));
  EXPECT_THAT(text, HasSubstr("can cost less than"));
  EXPECT_THAT(text, HasSubstr("Did not fit: 1 blank"));
  EXPECT_THAT(text, HasSubstr("to buy: a sheet of birch plywood 12, at least 2640 × 420"));
}

TEST(RemainingStock, IsWhatWasNotCutAndTheOffcuts) {
  LayoutJob job = sheetJob();
  job.stock.items.front().count = 6;
  const joinery::StockList rest = exporting::remainingStock(job);
  std::size_t offcuts = 0;
  for (const auto& one : job.layout.stock) offcuts += one.offcuts.size();
  ASSERT_GT(offcuts, 0U);
  ASSERT_EQ(rest.items.size(), 1 + offcuts);
  EXPECT_EQ(rest.items.front().count, 2);
  const auto& offcut = rest.items.back();
  const auto& zone = job.layout.stock.back().offcuts.front();
  EXPECT_TRUE(offcut.offcut);
  EXPECT_EQ(offcut.length, zone.length);
  EXPECT_EQ(offcut.nearWidth, zone.width);
  EXPECT_EQ(offcut.thickness, 12.2);
  EXPECT_EQ(offcut.price, 0.0);  // paid for already
}

TEST(RemainingStock, KeepsTheDefectsThatReachIntoAnOffcut) {
  LayoutJob job = boardJob();
  job.layout.stock.front().offcuts = {{1200, 100, 500, 100}};
  job.layout.stock.back().offcuts.clear();
  const joinery::StockList rest = exporting::remainingStock(job);
  ASSERT_EQ(rest.items.size(), 1U);
  ASSERT_EQ(rest.items[0].defects.size(), 2U);  // the knot whole, the wane in part
  EXPECT_EQ(rest.items[0].defects[0].zone, (joinery::FlatRect{10, 40, 60, 45}));
  EXPECT_EQ(rest.items[0].defects[1].zone, (joinery::FlatRect{0, 92, 100, 8}));
}

TEST(RemainingStock, ReadsBackAsTheSameList) {
  for (std::uint32_t seed = 1; seed <= 10; ++seed) {
    SCOPED_TRACE(seed);
    exporting::LayoutJob job = randomJob(seed);
    job.stock.boardEndTrim = 30;
    const joinery::StockList rest = exporting::remainingStock(job);
    const auto read = joinery::parseStock(exporting::stockText(rest), "rest");
    ASSERT_TRUE(read) << read.error().line();
    ASSERT_TRUE(read->boardEndTrim);
    EXPECT_NEAR(*read->boardEndTrim, 30, 1e-3);
    EXPECT_FALSE(read->boardEdgeTrim);
    ASSERT_EQ(read->items.size(), rest.items.size());
    for (const auto& item : read->items) {
      const auto same = std::ranges::find(rest.items, item.name, &joinery::StockItem::name);
      ASSERT_NE(same, rest.items.end());
      EXPECT_NEAR(item.length, same->length, 1e-3);
      EXPECT_NEAR(item.nearWidth, same->nearWidth, 1e-3);
      EXPECT_EQ(item.defects.size(), same->defects.size());
      EXPECT_EQ(item.offcut, same->offcut);
      EXPECT_EQ(item.price, same->price);
    }
  }
}

}  // namespace
}  // namespace dryfit::testing

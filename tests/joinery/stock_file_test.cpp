#include "joinery/stock/stock_file.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <random>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include "joinery/stock/outline.h"
#include "tests/joinery/model_samples.h"
#include "tests/support/repetitions.h"

namespace dryfit::joinery {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;
using ::testing::StartsWith;

/// A stock list with one thing of every sort that it can hold.
std::string stockText() {
  return R"({
  "format": "dryfit-stock", "version": 1, "unit": "mm", "currency": "EUR", "note": "rack",
  "trims": {"board_ends": "1 in", "board_edges": 2},
  "sheets": {
    "ply": {"species": "birch plywood", "thickness": 12, "length": 2500, "width": 1250, "count": 2,
            "grain": "width", "grade": ["B", "BB"], "price": 68.5, "note": "flat", "offcut": false},
    "rest": {"species": "birch plywood", "thickness": 12, "length": 900, "width": 600,
             "offcut": true, "material": "ply12",
             "defects": [{"kind": "other", "at": [0, 0], "size": [50, 60], "note": "corner"}]}
  },
  "boards": {
    "A1": {"species": "white oak", "length": "96 in", "width": [210, 185], "thickness": "1 1/16 in",
           "defects": [{"kind": "knot", "at": [820, 60], "size": [45, 40], "face": "first"},
                       {"kind": "split", "at": [0, 70], "size": [110, 30]}],
           "grade": "A", "moisture": 9, "batch": "october", "price": 52},
    "B1": {"species": "white oak", "thickness": 33,
           "outline": [[0, 0], [1900, 0], [1900, 170], [900, 205], [0, 190]]}
  }
})";
}

StockList stockFrom(const std::string& text) {
  const Result<StockList> list = parseStock(text, "rack.json");
  if (!list) throw std::runtime_error(list.error().line());
  return *list;
}

TEST(StockFile, KeepsEveryEntryAsMeasured) {
  const StockList list = stockFrom(stockText());
  EXPECT_EQ(list.currency, "EUR");
  EXPECT_EQ(list.boardEndTrim, 25.4);
  EXPECT_EQ(list.boardEdgeTrim, 2);
  ASSERT_EQ(list.items.size(), 4U);
  const StockItem& ply = list.items[0];
  EXPECT_EQ(ply.form, StockForm::sheet);
  EXPECT_EQ(ply.count, 2);
  EXPECT_EQ(ply.grain, Grain::width);
  EXPECT_EQ(ply.firstGrade, "B");
  EXPECT_EQ(ply.secondGrade, "BB");
  EXPECT_EQ(ply.price, 68.5);
  EXPECT_DOUBLE_EQ(ply.area(), 2500.0 * 1250);
  EXPECT_TRUE(list.items[1].offcut);
  EXPECT_EQ(list.items[1].material, "ply12");
  const StockItem& board = list.items[2];
  EXPECT_EQ(board.form, StockForm::board);
  EXPECT_NEAR(board.length, 96 * 25.4, 1e-9);  // the inch is 25.4 mm
  EXPECT_NEAR(board.thickness, 26.9875, 1e-9);
  EXPECT_EQ(board.nearWidth, 210);
  EXPECT_EQ(board.farWidth, 185);
  EXPECT_NEAR(board.area(), board.length * (210 + 185) / 2, 1e-6);  // a trapezium
  ASSERT_EQ(board.defects.size(), 2U);
  EXPECT_EQ(board.defects[0].kind, DefectKind::knot);
  EXPECT_EQ(board.defects[0].face, StockFace::first);
  EXPECT_EQ(board.defects[0].zone, (FlatRect{820, 60, 45, 40}));
  EXPECT_EQ(board.defects[1].face, StockFace::both);
  EXPECT_EQ(board.firstGrade, "A");
  EXPECT_EQ(board.secondGrade, "A");
  EXPECT_EQ(board.moisture, 9);
  EXPECT_EQ(board.batch, "october");
  const StockItem& waney = list.items[3];
  EXPECT_EQ(waney.length, 1900);
  EXPECT_EQ(waney.nearWidth, 205);
  // Two trapezia side by side: 900 long from 190 to 205, 1000 long from 205 to 170.
  EXPECT_NEAR(waney.area(), 900 * (190 + 205) / 2.0 + 1000 * (205 + 170) / 2.0, 1e-6);
}

struct BadStock {
  const char* from;
  const char* to;
  std::vector<std::string> said;
};

TEST(StockFile, NamesEveryBadEntryInOneLine) {
  const std::vector<BadStock> cases{
      {"dryfit-stock", "dryfit-model", {"rack.json: format", "dryfit-stock"}},
      {"\"version\": 1", "\"version\": 2", {"version", "reads version 1"}},
      {"\"unit\": \"mm\"", "\"unit\": \"m\"", {"unit", "mm, cm, in"}},
      {"\"board_ends\"", "\"bord_ends\"", {"trims.bord_ends", "did you mean 'board_ends'"}},
      {"\"1 in\"", "-3", {"trims.board_ends", "-3 mm"}},
      {"\"1 in\"", "900", {"trims.board_ends", "at most 500 mm"}},
      {"\"moisture\"", "\"moistur\"", {"boards.A1.moistur", "did you mean 'moisture'"}},
      {"white oak", "white oka", {"boards.A1.species", "did you mean 'white oak'"}},
      {"\"96 in\"", "-96", {"boards.A1.length", "-96 mm"}},
      {"\"96 in\"", "\"long\"", {"boards.A1.length", "'long' is not a length"}},
      {"\"96 in\"", "1e9", {"boards.A1.length", "100 m"}},
      {"\"96 in\"", "1e999", {"too large for a number"}},
      {"\"96 in\"", "null", {"boards.A1.length", "a length is needed"}},
      {"[210, 185]", "[210, 0]", {"boards.A1.width[1]", "0 mm"}},
      {"[210, 185]", "[210, 185, 3]", {"boards.A1.width", "3 entries"}},
      {"[820, 60]", "[2420, 60]", {"boards.A1.defects[0]", "off the board"}},
      {"[820, 60]", "[820, 190]", {"boards.A1.defects[0]", "off the board"}},
      // Within the widest width, but beyond the tapered edge.
      {"[820, 60], \"size\": [45, 40]",
       "[2300, 193], \"size\": [45, 10]",
       {"boards.A1.defects[0]", "off the board"}},
      {"[820, 60]", "[-1, 60]", {"boards.A1.defects[0].at[0]", "-1 mm"}},
      {"[45, 40]", "[45, -40]", {"boards.A1.defects[0].size[1]", "-40 mm"}},
      {"\"knot\"", "\"not\"", {"boards.A1.defects[0].kind", "knot, split, wane, sap, other"}},
      {"\"first\"", "\"front\"", {"boards.A1.defects[0].face", "first, second, both"}},
      {"\"moisture\": 9", "\"moisture\": -1", {"boards.A1.moisture", "between 0 and 300"}},
      {"\"price\": 52", "\"price\": \"cheap\"", {"boards.A1.price", "a number is needed"}},
      {"\"price\": 52", "\"price\": -52", {"boards.A1.price", "between 0"}},
      {"\"count\": 2", "\"count\": 0", {"sheets.ply.count", "between 1"}},
      {"\"count\": 2", "\"count\": 2.5", {"sheets.ply.count", "whole number"}},
      {"\"offcut\": true", "\"offcut\": \"yes\"", {"sheets.rest.offcut", "true or false"}},
      {"\"offcut\": true", "\"count\": 3", {"sheets.rest.defects", "count of 1"}},
      {"[\"B\", \"BB\"]", "[\"B\"]", {"sheets.ply.grade", "1 entries, not 2"}},
      {"\"A1\"", "\"ply\"", {"boards.ply", "'ply' is taken"}},
      {"\"B1\"", "\"A1\"", {"boards.A1", "twice"}},
      {"\"B1\"", "\" \"", {"boards.", "no name"}},
      {"\"thickness\": 33", "\"length\": 1900, \"thickness\": 33", {"outline", "leave those two"}},
      {"[900, 205]", "[900, -5]", {"boards.B1.outline[3][1]", "-5 mm"}},
      {"[1900, 170], [900, 205]", "[900, 205], [1900, 170]", {"boards.B1.outline", "crosses"}},
      {"[1900, 170], [900, 205], [0, 190]",
       "[900, 0]",
       {"boards.B1.outline", "crosses or touches"}},
      {"[[0, 0], [1900, 0], [1900, 170], [900, 205], [0, 190]]",
       "[[0, 0], [1900, 0]]",
       {"boards.B1.outline", "three corners"}},
      {"[[0, 0], [1900, 0], [1900", "[[10, 5], [1900, 5], [1900", {"outline", "begins at"}},
      {"[900, 205], [0, 190]", "[900, 205], [20, 190]", {}},
      {"{\"species\": \"white oak\", \"thickness\": 33",
       "{\"species\": \"white oak\"",
       {"boards.B1", "'thickness' is missing"}},
  };
  for (const BadStock& bad : cases) {
    SCOPED_TRACE(std::string(bad.from) + " -> " + bad.to);
    const auto list = parseStock(replaced(stockText(), bad.from, bad.to), "rack.json");
    if (bad.said.empty()) {
      EXPECT_TRUE(list) << list.error().line();
      continue;
    }
    ASSERT_FALSE(list);
    EXPECT_EQ(list.error().code, ErrorCode::badStock);
    EXPECT_THAT(list.error().line(), StartsWith("rack.json: "));
    for (const std::string& part : bad.said) EXPECT_THAT(list.error().line(), HasSubstr(part));
    EXPECT_EQ(list.error().line().find('\n'), std::string::npos);
  }
}

TEST(StockFile, SaysWhenAFileIsNotThere) {
  const auto list = loadStock("/nowhere/rack.json");
  ASSERT_FALSE(list);
  EXPECT_EQ(list.error().code, ErrorCode::fileNotRead);
}

// Mutations of good text: every byte, cut, doubled or swapped pieces. Whatever comes of it is a
// list that keeps the laws of a stock list, or one error on one line.
TEST(StockFile, SurvivesThousandsOfSpoiltFiles) {
  constexpr unsigned kSeed = 20260101;
  std::mt19937 random(kSeed);
  const auto pick = [&](std::size_t n) { return static_cast<std::size_t>(random() % n); };
  const std::string good = stockText();
  const std::vector<std::string> tokens{
      "\"",   "{",    "}",      "[",   "]",   ",",       ":",    "0",    "-1", "1e99",      "\"\"",
      "null", "true", "[0, 0]", "1/0", "nan", "\\u0000", "\xff", "1e-9", "{}", "9999999999"};
  int read = 0, refused = 0;
  for (int round = 0; round < test::repetitions(4000); ++round) {
    std::string text = good;
    for (std::size_t k = 0, n = 1 + pick(3); k < n; ++k) {
      const std::size_t at = pick(text.size());
      switch (pick(4)) {
        case 0:
          text[at] = static_cast<char>(pick(256));
          break;
        case 1:
          text.erase(at, 1 + pick(12));
          break;
        case 2:
          text.insert(at, text.substr(pick(text.size()), pick(20)));
          break;
        default:
          text.insert(at, tokens[pick(tokens.size())]);
      }
    }
    const auto list = parseStock(text, "rack.json");
    if (!list) {
      ++refused;
      ASSERT_EQ(list.error().code, ErrorCode::badStock) << text;
      ASSERT_FALSE(list.error().what.empty());
      ASSERT_EQ(list.error().line().find('\n'), std::string::npos) << list.error().line();
      continue;
    }
    ++read;
    for (const StockItem& item : list->items) {
      ASSERT_GT(item.area(), 0) << text;
      ASSERT_GT(item.thickness, 0) << text;
      ASSERT_GE(item.count, 1) << text;
      ASSERT_LE(item.area(), item.length * std::max(item.nearWidth, item.farWidth) * (1 + 1e-9));
      for (const Defect& defect : item.defects) {
        ASSERT_GT(sharedArea(item.shape(), defect.zone), 0) << text;
      }
    }
  }
  EXPECT_GT(read, test::repetitions(4000) / 50);
  EXPECT_GT(refused, test::repetitions(1000));
}

TEST(Outline, SharedAreaOfARectangleIsThatOfTheirCommonRectangle) {
  const std::vector<FlatPoint> square{{0, 0}, {100, 0}, {100, 50}, {0, 50}};
  EXPECT_DOUBLE_EQ(sharedArea(square, {-10, -10, 30, 20}), 20.0 * 10);
  EXPECT_DOUBLE_EQ(sharedArea(square, {200, 0, 30, 20}), 0);
  // An L: the notch is not part of it.
  const std::vector<FlatPoint> angle{{0, 0}, {100, 0}, {100, 20}, {20, 20}, {20, 50}, {0, 50}};
  EXPECT_DOUBLE_EQ(sharedArea(angle, {10, 10, 50, 30}), 50.0 * 10 + 10.0 * 20);
  EXPECT_DOUBLE_EQ(sharedArea(angle, {30, 30, 20, 20}), 0);
}

/// The schema that ships with the models, in the hands of an independent validator.
class StockSchema : public ::testing::Test {
 protected:
  StockSchema() {
    std::ifstream in(std::filesystem::path(DRYFIT_MODELS) / "dryfit-stock.schema.json");
    const json document = json::parse(in);
    const valijson::adapters::NlohmannJsonAdapter adapter(document);
    valijson::SchemaParser(valijson::SchemaParser::kDraft7).populateSchema(adapter, schema_);
  }
  [[nodiscard]] bool takes(const json& document) {
    const valijson::adapters::NlohmannJsonAdapter adapter(document);
    return valijson::Validator().validate(schema_, adapter, nullptr);
  }

 private:
  valijson::Schema schema_;
};

TEST_F(StockSchema, TakesTheListsThatAreShippedAndTheSample) {
  EXPECT_TRUE(takes(json::parse(stockText())));
  const auto path = std::filesystem::path(DRYFIT_MODELS) / "periodicals-cupboard-stock.json";
  std::ifstream in(path);
  EXPECT_TRUE(takes(json::parse(in)));
  const auto list = loadStock(path);
  ASSERT_TRUE(list) << list.error().line();
  EXPECT_GE(list->items.size(), 20U);
}

void places(const json& node, const json::json_pointer& at, std::vector<json::json_pointer>& out) {
  out.push_back(at);
  if (node.is_object()) {
    for (const auto& [key, value] : node.items()) places(value, at / key, out);
  } else if (node.is_array()) {
    for (std::size_t i = 0; i < node.size(); ++i) places(node[i], at / i, out);
  }
}

TEST_F(StockSchema, RefusesNothingThatTheReaderTakes) {
  const json good = json::parse(stockText());
  std::vector<json::json_pointer> all;
  places(good, json::json_pointer(), all);
  int wrong = 0;
  for (const auto& at : all) {
    std::vector<json> values{nullptr, true, json::array(), json::object(), -1, 0, "text"};
    for (const json& value : values) {
      json changed = good;
      changed[at] = value;
      const bool read = parseStock(changed.dump(), "s").has_value();
      if (read) {
        EXPECT_TRUE(takes(changed)) << at.to_string() << " = " << value.dump();
      }
      if (!takes(changed)) ++wrong;
    }
    if (good[at].is_object()) {
      json changed = good;
      changed[at]["Unknown key"] = 1;
      EXPECT_FALSE(takes(changed)) << at.to_string();
      EXPECT_FALSE(parseStock(changed.dump(), "s")) << at.to_string();
    }
  }
  EXPECT_GT(wrong, 200);
}

}  // namespace
}  // namespace dryfit::joinery

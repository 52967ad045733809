#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <sstream>

#include "export/words/text_table.h"
#include "tests/support/scratch.h"

namespace dryfit {
namespace {

using nlohmann::json;
using testing::dryfitCommand;
using testing::frameModel;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::replaced;
using testing::Said;
using testing::Scratch;

std::string pricedFrame() {
  return replaced(replaced(frameModel(), "\"species\": \"white oak\"",
                           R"("rough": {"price": 4000}, "species": "white oak")"),
                  "\"joints\": {",
                  R"("currency": "EUR", "hardware": {"butt_hinge": {"count": 2, "price": 7.5,
         "note": "brass, with a long note, so that it has to be broken to fit a small screen"}},
         "joints": {)");
}

std::vector<std::string> linesOf(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

TEST(Buy, WritesNoTwoListsToOnePlace) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", testing::frameModel());
  const auto before = scratch.listing();
  const Said said = dryfitCommand(
      {"buy", model, "--csv", scratch.file("list"), "--list", scratch.file("./list")});
  EXPECT_EQ(said.code, 2) << said.out;
  EXPECT_THAT(said.err, ::testing::HasSubstr("two files would be written here"));
  EXPECT_EQ(scratch.listing(), before);
}

TEST(Buy, TellsWhatToBuyAndWhatItCosts) {
  const Scratch scratch;
  const Said said = dryfitCommand({"buy", scratch.write("frame.dryfit", pricedFrame())});
  EXPECT_EQ(said.code, 0) << said.err;
  EXPECT_THAT(said.out, HasSubstr("Purchase list of Test frame, sizes as drawn, in mm"));
  EXPECT_THAT(said.out, HasSubstr("white oak"));
  EXPECT_THAT(said.out, HasSubstr("27 mm"));
  EXPECT_THAT(said.out, HasSubstr("butt hinge"));
  EXPECT_THAT(said.out, HasSubstr("No price for: finish"));
  EXPECT_THAT(said.out, HasSubstr("Rough sizes"));
  EXPECT_THAT(said.out, HasSubstr("625"));  // a stile of 600 mm and 25 mm on top
  EXPECT_THAT(said.out, HasSubstr("Safety"));
  EXPECT_THAT(said.out, Not(HasSubstr(" \n")));
}

TEST(Buy, SaysWhereNothingIsPriced) {
  const Scratch scratch;
  const Said said = dryfitCommand({"buy", scratch.write("frame.dryfit", frameModel())});
  EXPECT_THAT(said.out, HasSubstr("No prices yet"));
}

TEST(Buy, JsonAddsUp) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", pricedFrame());
  const Said mm = dryfitCommand({"buy", model, "--json"});
  EXPECT_EQ(mm.code, 0) << mm.err;
  EXPECT_EQ(mm.out, dryfitCommand({"buy", model, "--json", "--units", "in"}).out);
  const json report = json::parse(mm.out);
  EXPECT_EQ(report["report"], "purchase");
  EXPECT_EQ(report["basis"], "drawn");
  EXPECT_EQ(report["currency"], "EUR");
  double rough = 0;
  for (const auto& one : report["rough"]) {
    rough += one["length_mm"].get<double>() * one["width_mm"].get<double>() *
             one["sold_thickness_mm"].get<double>();
  }
  const json& timber = report["timber"][0];
  EXPECT_NEAR(timber["rough_mm3"].get<double>(), rough, 1e-6 * rough);
  EXPECT_EQ(timber["pieces"], 4);
  // One board foot is 2359.737 cm³ (12 x 12 x 1 in).
  EXPECT_NEAR(timber["board_feet"].get<double>(), timber["buy_mm3"].get<double>() / 2359737, 1e-5);
  const double total = timber["cost"].get<double>() + 15;
  EXPECT_NEAR(report["total"].get<double>(), total, 1e-6);
  EXPECT_EQ(report["not_priced"], json::array({"finish"}));
}

TEST(Buy, WritesAListForThePocket) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", pricedFrame());
  for (const char* unit : {"mm", "cm", "in"}) {
    const Said said =
        dryfitCommand({"buy", model, "--list", scratch.file("list.txt"), "--units", unit});
    EXPECT_EQ(said.code, 0) << said.err;
    const std::string text = scratch.read("list.txt");
    for (const std::string& line : linesOf(text)) {
      EXPECT_LE(exporting::columnsOf(line), 40U) << line;
    }
    EXPECT_THAT(text, HasSubstr("[ ] white oak"));
    EXPECT_THAT(text, HasSubstr("[ ] 2 x butt hinge"));
    EXPECT_THAT(text, HasSubstr("    brass, with a long note"));
  }
}

TEST(Buy, CsvHasOneRecordAThing) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", pricedFrame());
  EXPECT_EQ(dryfitCommand({"buy", model, "--csv", scratch.file("buy.csv")}).code, 0);
  const auto lines = linesOf(scratch.read("buy.csv"));
  ASSERT_EQ(lines.size(), 4U);  // head, oak, hinges, finish
  EXPECT_EQ(lines[0],
            "section,item,sold_as,count,longest_mm,widest_mm,quantity,unit,board_feet,"
            "board_feet_tally,cost,currency,note\r");
  EXPECT_THAT(lines[1], HasSubstr("timber,white oak,27 mm,4,625,"));
  EXPECT_THAT(lines[2], HasSubstr("hardware,butt hinge,,2,,,,,,,15,EUR,\"brass, with"));
}

TEST(Buy, WorkbookHoldsTheListAndTheRoughSizes) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", pricedFrame());
  EXPECT_EQ(dryfitCommand({"buy", model, "--xlsx", scratch.file("buy.xlsx")}).code, 0);
  const std::string command = "unzip -p '" + scratch.file("buy.xlsx") + "' xl/workbook.xml > '" +
                              scratch.file("book.xml") + "'";
  ASSERT_EQ(std::system(command.c_str()), 0);
  EXPECT_THAT(scratch.read("book.xml"), HasSubstr("To buy"));
  EXPECT_THAT(scratch.read("book.xml"), HasSubstr("Rough sizes"));
}

TEST(Buy, WritesNothingWhereRoughSizesAreAbsurd) {
  const Scratch scratch;
  const std::string model =
      scratch.write("frame.dryfit", replaced(pricedFrame(), "\"price\": 4000", "\"sold_as\": [3]"));
  const auto before = scratch.listing();
  const Said said = dryfitCommand({"buy", model, "--csv", scratch.file("buy.csv")});
  EXPECT_EQ(said.code, 2);
  EXPECT_EQ(std::count(said.err.begin(), said.err.end(), '\n'), 1) << said.err;
  EXPECT_THAT(said.err, HasSubstr("frame.dryfit: parts."));
  EXPECT_EQ(scratch.listing(), before);
}

}  // namespace
}  // namespace dryfit

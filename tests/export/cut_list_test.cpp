#include "export/lists/cut_list.h"

#include "joinery/base/unit.h"

#include <gmock/gmock.h>

#include <array>
#include <cmath>
#include <cstdio>
#include <map>
#include <nlohmann/json.hpp>
#include <pugixml.hpp>

#include "joinery/formula/length_text.h"
#include "tests/support/scratch.h"

namespace dryfit {
namespace {

using exporting::CutList;
using joinery::Unit;
using nlohmann::json;
using testing::dryfitCommand;
using ::testing::ElementsAre;
using testing::frameModel;
using ::testing::HasSubstr;
using testing::Said;
using testing::Scratch;

/// A reader of comma-separated values written from RFC 4180, section 2, by itself.
std::vector<std::vector<std::string>> parseCsv(const std::string& text) {
  std::vector<std::vector<std::string>> records;
  std::vector<std::string> record;
  std::string cell;
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted) {
      if (c == '"' && i + 1 < text.size() && text[i + 1] == '"') {
        cell += text[++i];
      } else if (c == '"') {
        quoted = false;
      } else {
        cell += c;
      }
    } else if (c == '"') {
      quoted = true;
    } else if (c == ',') {
      record.push_back(std::exchange(cell, {}));
    } else if (c == '\r' && i + 1 < text.size() && text[i + 1] == '\n') {
      ++i;
      record.push_back(std::exchange(cell, {}));
      records.push_back(std::exchange(record, {}));
    } else {
      cell += c;
    }
  }
  EXPECT_TRUE(cell.empty() && record.empty()) << "the last record does not end in CR LF";
  return records;
}

CutList awkwardList() {
  exporting::CutRow row;
  row.number = 7;
  row.label = "Rail, \"upper\"\nleft";
  row.parts = {"a", "b"};
  row.length = Length::mm(1234.567);
  row.width = Length::mm(60);
  row.thickness = Length::mm(25.4);
  row.shoulderLength = row.shoulderShortest = Length::mm(1200);
  row.grain = "length";
  row.mirrorOf = 6;
  row.tapers = {{true, Length::mm(2), Length::mm(120), Length::mm(56), Length::mm(1080),
                 "opposite the face edge", "bottom", false}};
  return {"Piece", joinery::Basis::drawn, {{"oak", "oak, white", {row}}}, {}};
}

TEST(CutListCsv, ReadsBackByTheStandardsRules) {
  const auto records = parseCsv(exporting::cutListCsv(awkwardList(), Unit::mm));
  ASSERT_EQ(records.size(), 2);
  EXPECT_THAT(records[0], ElementsAre("number", "part", "count", "length_mm", "width_mm",
                                      "thickness_mm", "shoulder_length_mm", "grain", "material",
                                      "species", "mirror_of", "remark"));
  EXPECT_THAT(records[1],
              ElementsAre("7", "Rail, \"upper\"\nleft", "2", "1234.57", "60", "25.4", "1200",
                          "length", "oak", "oak, white", "6",
                          "narrows to 56 at the bottom over 1080, opposite the face edge"));
}

TEST(CutListCsv, NamesItsUnitAndKeepsAHundredthOfAMillimetre) {
  for (const Unit unit : {Unit::mm, Unit::cm, Unit::inch}) {
    const auto records = parseCsv(exporting::cutListCsv(awkwardList(), unit));
    EXPECT_EQ(records[0][3], "length_" + std::string(joinery::nameOf(unit)));
    EXPECT_NEAR(std::stod(records[1][3]) * joinery::millimetresIn(unit), 1234.567, 0.0051);
  }
}

/// What `unzip -p archive member` prints.
std::string unzipped(const std::string& archive, const std::string& member) {
  const std::string command = "unzip -p '" + archive + "' '" + member + "'";
  FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) return "";
  std::string text;
  std::array<char, 4096> buffer{};
  for (std::size_t n = 0; (n = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) {
    text.append(buffer.data(), n);
  }
  EXPECT_EQ(pclose(pipe), 0) << command;
  return text;
}

/// Cells of the first sheet of a workbook, by address ("B2"); texts looked up in the shared table.
struct SheetCells {
  std::map<std::string, double> numbers;
  std::map<std::string, std::string> texts;
  int frozenRows = 0;
};
SheetCells cellsOf(const std::string& file) {
  pugi::xml_document sheet, strings;
  EXPECT_TRUE(sheet.load_string(unzipped(file, "xl/worksheets/sheet1.xml").c_str()));
  EXPECT_TRUE(strings.load_string(unzipped(file, "xl/sharedStrings.xml").c_str()));
  std::vector<std::string> shared;
  for (const auto& item : strings.child("sst").children("si")) {
    shared.emplace_back(item.child("t").text().get());
  }
  SheetCells cells;
  for (const auto& row : sheet.child("worksheet").child("sheetData").children("row")) {
    for (const auto& cell : row.children("c")) {
      const std::string address = cell.attribute("r").value();
      if (std::string(cell.attribute("t").value()) == "s") {
        cells.texts[address] = shared.at(cell.child("v").text().as_uint());
      } else if (cell.child("v")) {
        cells.numbers[address] = cell.child("v").text().as_double();
      }
    }
  }
  const auto pane = sheet.child("worksheet").child("sheetViews").child("sheetView").child("pane");
  cells.frozenRows = pane.attribute("ySplit").as_int();
  EXPECT_STREQ(pane.attribute("state").value(), "frozen");
  return cells;
}

TEST(CutListWorkbook, HoldsNumbersAsNumbersUnderAFrozenHead) {
  const Scratch scratch;
  const auto bytes = exporting::cutListWorkbook(awkwardList(), Unit::mm);
  ASSERT_TRUE(bytes) << bytes.error().line();
  const SheetCells cells = cellsOf(scratch.write("list.xlsx", *bytes));
  EXPECT_EQ(cells.frozenRows, 1);
  EXPECT_EQ(cells.texts.at("D1"), "Length mm");
  EXPECT_EQ(cells.numbers.at("A2"), 7);
  EXPECT_EQ(cells.texts.at("B2"), "Rail, \"upper\"\nleft");
  EXPECT_EQ(cells.numbers.at("C2"), 2);
  EXPECT_EQ(cells.numbers.at("D2"), 1234.57);
  EXPECT_EQ(cells.numbers.at("E2"), 60);
  EXPECT_EQ(cells.numbers.at("F2"), 25.4);
  EXPECT_EQ(cells.numbers.at("G2"), 1200);
  EXPECT_EQ(cells.numbers.at("K2"), 6);
}

TEST(CutList, TextCsvWorkbookAndJsonAgree) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const std::vector<std::string> files{
      "cutlist", model, "--csv", scratch.file("l.csv"), "--xlsx", scratch.file("l.xlsx")};
  const Said text = dryfitCommand(files);
  ASSERT_EQ(text.code, 0) << text.err;
  EXPECT_THAT(text.out, HasSubstr("written: " + scratch.file("l.csv")));
  EXPECT_THAT(text.out, HasSubstr("Safety:"));
  const json report = json::parse(dryfitCommand({"cutlist", model, "--json"}).out);
  const auto records = parseCsv(scratch.read("l.csv"));
  const SheetCells cells = cellsOf(scratch.file("l.xlsx"));
  std::size_t line = 1;
  int count = 0;
  for (const auto& section : report["materials"]) {
    for (const auto& row : section["rows"]) {
      const auto& record = records.at(line++);
      const std::string at = std::to_string(line);
      EXPECT_EQ(record[1], row["label"]);
      EXPECT_EQ(cells.texts.at("B" + at), row["label"]);
      EXPECT_NEAR(std::stod(record[3]), row["length_mm"].get<double>(), 0.0051);
      EXPECT_EQ(cells.numbers.at("D" + at), std::stod(record[3]));
      EXPECT_THAT(text.out, HasSubstr(joinery::lengthText(
                                Length::mm(row["length_mm"].get<double>()), Unit::mm)));
      count += row["count"].get<int>();
    }
  }
  EXPECT_EQ(line, records.size());
  EXPECT_EQ(count, 4);
}

TEST(CutList, LongestPartsComeFirstAndTenonsAreIncluded) {
  const Scratch scratch;
  const Said said =
      dryfitCommand({"cutlist", scratch.write("frame.dryfit", frameModel()), "--json"});
  ASSERT_EQ(said.code, 0) << said.err;
  const json rows = json::parse(said.out)["materials"][0]["rows"];
  double longest = 1e9;
  for (const auto& row : rows) {
    EXPECT_LE(row["length_mm"].get<double>(), longest);
    longest = row["length_mm"].get<double>();
  }
  EXPECT_NEAR(rows.front()["length_mm"].get<double>(), 600, 1e-9);
  EXPECT_NEAR(rows.back()["shoulder_length_mm"].get<double>(), 276, 1e-9);
  EXPECT_GT(rows.back()["length_mm"].get<double>(), 276);
}

}  // namespace
}  // namespace dryfit

#include <gmock/gmock.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "tests/support/scratch.h"

namespace dryfit {
namespace {

using nlohmann::json;
using testing::dryfitCommand;
using testing::frameModel;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using testing::replaced;
using testing::Said;
using testing::Scratch;

TEST(MarkVerb, TellsWhatIsFixedAndRecordsIt) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const Said said = dryfitCommand({"mark", model, "left_stile=cut", "right_stile=machined"});
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_THAT(said.out, HasSubstr("length, width and thickness"));
  EXPECT_THAT(said.out, HasSubstr("Recorded"));
  EXPECT_THAT(scratch.read("frame.dryfit"), HasSubstr("\"state\": \"machined\""));
  const Said back = dryfitCommand({"mark", model, "left_stile=", "right_stile=", "--json"});
  ASSERT_EQ(back.code, 0) << back.err;
  EXPECT_TRUE(json::parse(back.out)["marks"].empty());
  EXPECT_THAT(scratch.read("frame.dryfit"), Not(HasSubstr("marks")));
}

TEST(MarkVerb, RecordsTheSizesOfTheWood) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  ASSERT_EQ(dryfitCommand({"measure", model, "left_stile.width=60.8"}).code, 0);
  const Said said = dryfitCommand({"mark", model, "left_stile=cut", "--json", "--as", "drawn"});
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_NEAR(json::parse(said.out)["marks"][0]["width_mm"].get<double>(), 60.8, 1e-9);
}

TEST(MarkVerb, TakesAWholeBatch) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const Said said = dryfitCommand({"mark", model, "--batch", "october=machined", "--json"});
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_GE(json::parse(said.out)["marks"].size(), 1U);
  const Said back = dryfitCommand({"mark", model, "--batch", "october=", "--json"});
  ASSERT_EQ(back.code, 0) << back.err;
  EXPECT_TRUE(json::parse(back.out)["marks"].empty());
}

TEST(MarkVerb, BadMarksAreNamedInOneLineAndChangeNothing) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const auto before = scratch.listing();
  const struct {
    std::vector<std::string> args;
    const char* said;
  } cases[] = {
      {{"left_stile"}, "PART=STATE"},
      {{"left_stile=sawn"}, "rough, machined, cut or jointed"},
      {{"left_stile=mashined"}, "did you mean machined"},
      {{"left_style=cut"}, "left_stile"},
      {{"left_stile=cut", "rail=cut"}, "rail"},
      {{"left_stile="}, "not marked"},
      {{"--batch", "may=cut"}, "no part belongs to batch 'may'"},
      {{"--batch", "october="}, "is marked"},
  };
  for (const auto& one : cases) {
    std::vector<std::string> args{"mark", model};
    args.insert(args.end(), one.args.begin(), one.args.end());
    SCOPED_TRACE(one.args.back());
    const Said said = dryfitCommand(args);
    EXPECT_EQ(said.code, 2);
    EXPECT_THAT(said.out, IsEmpty());
    EXPECT_EQ(std::count(said.err.begin(), said.err.end(), '\n'), 1) << said.err;
    EXPECT_THAT(said.err, HasSubstr(one.said));
    EXPECT_EQ(scratch.listing(), before);
  }
  EXPECT_EQ(dryfitCommand({"mark", model, "left_stile=cut", "--dry-run"}).code, 0);
  EXPECT_EQ(scratch.listing(), before);
}

/// A frame whose rails are cut, and that has become 4 mm wider since.
std::string widerFrame(const Scratch& scratch) {
  const std::string model = scratch.write("frame.dryfit", frameModel());
  EXPECT_EQ(dryfitCommand({"mark", model, "top_rail=cut", "bottom_rail=cut"}).code, 0);
  return scratch.write("frame.dryfit", replaced(scratch.read("frame.dryfit"),
                                                "\"frame_width\": 400", "\"frame_width\": 404"));
}

TEST(AbsorbVerb, ListsAndAppliesOneNumber) {
  const Scratch scratch;
  const std::string model = widerFrame(scratch);
  const Said check = dryfitCommand({"check", model});
  EXPECT_EQ(check.code, 1);
  EXPECT_THAT(check.out, HasSubstr("error locked"));
  const Said list = dryfitCommand({"absorb", model, "--json"});
  ASSERT_EQ(list.code, 0) << list.err;
  const json changes = json::parse(list.out)["changes"];
  const auto stile = std::find_if(changes.begin(), changes.end(),
                                  [](const json& c) { return c["number"] == "frame_width"; });
  ASSERT_NE(stile, changes.end()) << list.out;
  EXPECT_NEAR((*stile)["after_mm"].get<double>(), 400, 1e-9);

  const std::string before = scratch.read("frame.dryfit");
  EXPECT_EQ(dryfitCommand({"absorb", model, "frame_width", "--dry-run"}).code, 0);
  EXPECT_EQ(scratch.read("frame.dryfit"), before);
  const Said done = dryfitCommand({"absorb", model, "frame_width"});
  ASSERT_EQ(done.code, 0) << done.err;
  EXPECT_THAT(done.out, HasSubstr("Changed in"));
  EXPECT_EQ(scratch.read("frame.dryfit"),
            replaced(before, "\"frame_width\": 404", "\"frame_width\": 400"));
  EXPECT_THAT(dryfitCommand({"check", model}).out, Not(HasSubstr("locked")));
}

TEST(AbsorbVerb, TellsANumberAsFinelyAsTheCheckDoes) {
  const Scratch scratch;
  std::string text = scratch.read(scratch.write("frame.dryfit", frameModel()));
  text = replaced(text, "\"frame_width\": 400", "\"frame_width\": 400.25");
  const std::string model = scratch.write("frame.dryfit", text);
  ASSERT_EQ(dryfitCommand({"mark", model, "top_rail=cut", "bottom_rail=cut"}).code, 0);
  const std::string moved =
      scratch.write("frame.dryfit", replaced(scratch.read("frame.dryfit"), "400.25", "404.75"));
  ASSERT_EQ(moved, model);
  EXPECT_THAT(dryfitCommand({"check", model}).out, HasSubstr("Make frame_width 400.25 mm"));
  const Said listed = dryfitCommand({"absorb", model});
  EXPECT_THAT(listed.out, HasSubstr(" 400.25 "));
  EXPECT_THAT(listed.out, HasSubstr(" 404.75 "));
}

TEST(AbsorbVerb, ANumberThatWillNotDoIsRefused) {
  const Scratch scratch;
  const std::string model = widerFrame(scratch);
  const auto before = scratch.listing();
  const Said said = dryfitCommand({"absorb", model, "frame_height"});
  EXPECT_EQ(said.code, 2);
  EXPECT_THAT(said.err, HasSubstr("frame_width"));
  EXPECT_EQ(std::count(said.err.begin(), said.err.end(), '\n'), 1) << said.err;
  EXPECT_EQ(scratch.listing(), before);
}

TEST(ReadingsVerb, SaysWhichSideIsWiderOrHigher) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const auto said = [&](const char* widths, const char* heights, const char* diagonals) {
    return dryfitCommand({"readings", model, "--frame",
                          "left_stile,right_stile,top_rail,bottom_rail", "--diagonals", diagonals,
                          "--widths", widths, "--heights", heights})
        .out;
  };
  // Ptolemy: in an isosceles trapezium with parallel sides a, b and legs c, diagonal² = a b + c².
  EXPECT_THAT(said("402,400", "600,600", "721.94,721.94"),
              HasSubstr("2 mm wider at the top than at the bottom"));
  EXPECT_THAT(said("400,400", "602,600", "721.94,721.94"),
              HasSubstr("2 mm higher at the left than at the right"));
}

TEST(ReadingsVerb, SaysWhatToPull) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const std::vector<std::string> args{
      "readings",    model,         "--frame",  "left_stile,right_stile,top_rail,bottom_rail",
      "--diagonals", "719.5,722.5", "--widths", "400,400",
      "--heights",   "600,600"};
  const Said said = dryfitCommand(args);
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_THAT(said.out, HasSubstr("Racked"));
  EXPECT_THAT(said.out, HasSubstr("to the right"));
  EXPECT_THAT(said.out, HasSubstr("Safety"));
  auto inJson = args;
  inJson.emplace_back("--json");
  const json report = json::parse(dryfitCommand(inJson).out);
  // (722.5² - 719.5²) / (4 * 400)
  EXPECT_NEAR(report["rack_mm"].get<double>(), 2.70375, 1e-3);
  EXPECT_EQ(report["readings_agree"], true);
}

TEST(ReadingsVerb, BadReadingsAreNamedInOneLine) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const auto refused = [&](const std::string& frame, const std::string& diagonals,
                           const std::string& more, const std::string& says) {
    std::vector<std::string> args{"readings", model,      "--frame", frame,       "--diagonals",
                                  diagonals,  "--widths", "400,400", "--heights", "600,600"};
    if (!more.empty()) args.insert(args.end(), {"--corner", more});
    const Said said = dryfitCommand(args);
    EXPECT_EQ(said.code, 2) << said.out;
    EXPECT_THAT(said.err, HasSubstr(says));
    EXPECT_EQ(std::count(said.err.begin(), said.err.end(), '\n'), 1) << said.err;
  };
  const std::string frame = "left_stile,right_stile,top_rail,bottom_rail";
  refused(frame, "721", "", "two lengths");
  refused(frame, "721,wide", "", "wide");
  refused(frame, "1721,721", "", "no frame");
  refused("left_style,right_stile", "721,721", "", "left_stile");
  refused("left_stile", "721,721", "", "at least two");
  refused(frame, "721,721", "middle=90", "top_left");
  refused(frame, "721,721", "top_left=20", "near 90");
}

TEST(MeasureVerb, ListsDrawnAndMeasuredSizesSideBySide) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  ASSERT_EQ(
      dryfitCommand({"measure", model, "left_stile.width=60.8", "left_stile.moisture=9.5"}).code,
      0);
  ASSERT_EQ(dryfitCommand({"mark", model, "left_stile=cut"}).code, 0);
  const Said said = dryfitCommand({"measure", model});
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_THAT(said.out, HasSubstr("as drawn and as measured"));
  EXPECT_THAT(said.out, HasSubstr("9.5 %"));
  EXPECT_THAT(said.out, HasSubstr("60.8"));
  const json report = json::parse(dryfitCommand({"measure", model, "--json"}).out);
  EXPECT_EQ(report["report"], "sizes");
  const json& stile = report["parts"][0];
  EXPECT_EQ(stile["part"], "left_stile");
  EXPECT_NEAR(stile["drawn"]["width_mm"].get<double>(), 62, 1e-9);
  EXPECT_NEAR(stile["measured"]["width_mm"].get<double>(), 60.8, 1e-9);
  EXPECT_EQ(stile["mark"], "cut");
  EXPECT_EQ(stile["moisture_percent"], 9.5);
}

TEST(MarkVerb, ListsTheMarksWhereNoneIsGivenAndLeavesTheFileAlone) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  EXPECT_THAT(dryfitCommand({"mark", model}).out, HasSubstr("No part is marked."));
  ASSERT_EQ(dryfitCommand({"mark", model, "left_stile=cut"}).code, 0);
  const std::string before = scratch.read("frame.dryfit");
  const Said said = dryfitCommand({"mark", model});
  EXPECT_EQ(said.code, 0) << said.err;
  EXPECT_THAT(said.out, HasSubstr("length, width and thickness"));
  EXPECT_THAT(said.out, Not(HasSubstr("Recorded")));
  EXPECT_FALSE(json::parse(dryfitCommand({"mark", model, "--json"}).out)["saved"].get<bool>());
  EXPECT_EQ(scratch.read("frame.dryfit"), before);
}

TEST(CutListVerb, TellsOfTapers) {
  const Scratch scratch;
  const std::string model = scratch.write(
      "frame.dryfit",
      replaced(frameModel(), "\"joints\": {",
               "\"tapers\": {\"lean\": {\"parts\": [\"left_stile\"], \"size\": \"thickness\", "
               "\"narrow_end\": \"top\", \"by\": 2, \"from\": 300}},\n  \"joints\": {"));
  const Said said = dryfitCommand({"cutlist", model});
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_THAT(said.out, HasSubstr("thins to 21 at the top over 300, opposite the face side"));
  const json report = json::parse(dryfitCommand({"cutlist", model, "--json"}).out);
  int tapered = 0;
  for (const auto& row : report["materials"][0]["rows"]) tapered += row.contains("tapers") ? 1 : 0;
  EXPECT_EQ(tapered, 1);
}

}  // namespace
}  // namespace dryfit

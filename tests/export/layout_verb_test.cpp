// The verb `layout`, from a model and a stock list to the drawings.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>
#include <thread>

#include "joinery/stock/stock_file.h"
#include "joinery/trade/machines.h"
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
using ::testing::StartsWith;

namespace fs = std::filesystem;

std::string boards(double length) {
  return R"({"format": "dryfit-stock", "version": 1, "unit": "mm", "boards": {
    "A1": {"species": "white oak", "thickness": 27, "width": 200, "length": )" +
         std::to_string(length) + "}}}";
}

TEST(LayoutVerb, WritesDrawingsLabelsAndTheStockThatIsLeft) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const std::string stock = scratch.write("stock.json", boards(2400));
  const Said said = dryfitCommand({"layout", model, "--stock", stock, "-o", scratch.file("out"),
                                   "--labels", "--offcuts", scratch.file("rest.json")});
  ASSERT_EQ(said.code, 0) << said.err << said.out;
  EXPECT_THAT(said.out, HasSubstr("Cutting layout of Test frame"));
  EXPECT_THAT(scratch.read("out/layout.pdf"), StartsWith("%PDF"));
  EXPECT_THAT(scratch.read("out/labels.pdf"), StartsWith("%PDF"));
  const json layout = json::parse(scratch.read("out/layout.json"));
  EXPECT_EQ(layout["materials"][0]["placed"], 4);
  const auto rest = joinery::loadStock(scratch.file("rest.json"));
  ASSERT_TRUE(rest) << rest.error().line();
  for (const auto& item : rest->items) EXPECT_TRUE(item.offcut);
}

TEST(LayoutVerb, CutsWithTheKerfOfTheMachine) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const std::string stock = scratch.write("stock.json", boards(2400));
  const auto kerf = [&](std::vector<std::string> options) {
    std::vector<std::string> args{"layout", model, "--stock", stock, "-o", scratch.file("out")};
    args.insert(args.end(), options.begin(), options.end());
    const Said said = dryfitCommand(args);
    EXPECT_EQ(said.code, 0) << said.err;
    const json settings = json::parse(scratch.read("out/layout.json"))["settings"];
    return std::pair(settings["board_kerf_mm"].get<double>(),
                     settings["sheet_kerf_mm"].get<double>());
  };
  using joinery::Machine;
  const auto of = [](Machine which) { return joinery::machine(which).kerf; };
  const double table = of(Machine::tableSaw), band = of(Machine::bandSaw),
               cutter = of(Machine::router);
  EXPECT_EQ(kerf({}), std::pair(table, table));
  EXPECT_EQ(kerf({"--machine", "band_saw"}), std::pair(band, band));
  EXPECT_EQ(kerf({"--free"}), std::pair(table, cutter));  // boards are sawn all the same
  EXPECT_EQ(kerf({"--free", "--machine", "band_saw"}), std::pair(band, cutter));
  EXPECT_EQ(kerf({"--free", "--kerf", "6"}), std::pair(6.0, 6.0));
}

TEST(LayoutVerb, NamesWhatDidNotFitAndEndsWithOne) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const std::string stock = scratch.write("stock.json", boards(550));
  const Said said = dryfitCommand(
      {"layout", model, "--stock", stock, "-o", scratch.file("out"), "--format", "svg"});
  EXPECT_EQ(said.code, 1) << said.err;
  EXPECT_THAT(said.out, HasSubstr("Did not fit"));
  EXPECT_THAT(said.out, HasSubstr("Left stile"));
  EXPECT_THAT(said.out, HasSubstr("to buy: "));
  EXPECT_TRUE(fs::exists(scratch.path() / "out/layout/00-summary.svg"));
}

TEST(LayoutVerb, WritesNothingForBadInput) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const std::string stock = scratch.write("stock.json", boards(2400));
  const std::string bad = scratch.write("bad.json", boards(-5));
  const auto before = scratch.listing();
  const std::string out = scratch.file("out");
  for (const std::vector<std::string>& args : std::vector<std::vector<std::string>>{
           {"layout", model, "--stock", bad, "-o", out},
           {"layout", model, "--stock", scratch.file("none.json"), "-o", out},
           {"layout", model, "-o", out},
           {"layout", model, "--stock", stock, "-o", out, "--kerf", "-1"},
           {"layout", model, "--stock", stock, "-o", out, "--machine", "thicknesser"},
           {"layout", model, "--stock", stock, "-o", out, "--machine", "router", "--kerf", "3"},
           {"layout", model, "--stock", stock, "-o", out, "--trim", "wide"},
           {"layout", model, "--stock", stock, "-o", out, "--labels-per-page", "9x9"},
           {"layout", model, "--stock", stock, "-o", out, "--offcuts", scratch.file("no/r.json")},
           {"layout", model, "--stock", stock, "-o", scratch.file(""), "--offcuts",
            scratch.file("./layout.json")},
       }) {
    const Said said = dryfitCommand(args);
    EXPECT_EQ(said.code, 2) << said.out;
    EXPECT_EQ(std::count(said.err.begin(), said.err.end(), '\n'), 1) << said.err;
    EXPECT_EQ(scratch.listing(), before);
  }
}

void doNothing(int /*signal*/) {}

// The interrupt comes as soon as the verb has taken it over, long before the search ends; before
// and after it a handler of the test's own has it. A second would end the program.
TEST(LayoutVerb, WritesTheBestSoFarWhenInterrupted) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const std::string stock = scratch.write("stock.json", boards(2400));
  struct sigaction mine {
  }, before{}, after{};
  mine.sa_handler = doNothing;
  sigaction(SIGINT, &mine, &before);
  std::atomic<bool> done = false;
  std::thread hand([&done] {
    struct sigaction now {};
    do {
      std::this_thread::sleep_for(std::chrono::microseconds(200));
      sigaction(SIGINT, nullptr, &now);
    } while (!done && now.sa_handler == doNothing);
    if (!done) kill(getpid(), SIGINT);
  });
  const Said said = dryfitCommand({"layout", model, "--stock", stock, "-o", scratch.file("out"),
                                   "--offcuts", scratch.file("rest.json")});
  done = true;
  hand.join();
  sigaction(SIGINT, &before, &after);
  EXPECT_EQ(after.sa_handler, &doNothing);
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_THAT(said.out, HasSubstr("Stopped early: the best layout found so far"));
  const json layout = json::parse(scratch.read("out/layout.json"));
  EXPECT_EQ(layout["finished"], false);
  EXPECT_EQ(layout["materials"][0]["placed"], 4);
  for (const auto& [name, bytes] : scratch.listing()) {
    EXPECT_EQ(name.find(".dryfit-"), std::string::npos) << name;
  }
}

// 600 + 25 over length, 2 x 50 trim: 725 mm are 28 35/64 in, rounded up.
TEST(LayoutVerb, SaysWhatToBuyInTheUnitOfTheReport) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const std::string stock = scratch.write("stock.json", boards(550));
  const Said said = dryfitCommand(
      {"layout", model, "--stock", stock, "-o", scratch.file("out"), "--units", "in"});
  EXPECT_EQ(said.code, 1) << said.err;
  EXPECT_THAT(said.out, HasSubstr("at least 28 35/64 x "));
  EXPECT_THAT(said.out, HasSubstr("Safety:"));
}

TEST(LayoutVerb, PlacesOrNamesEveryBlankOfThePeriodicalsCupboard) {
  const Scratch scratch;
  const fs::path models = DRYFIT_MODELS;
  const Said said = dryfitCommand({"layout", (models / "periodicals-cupboard.dryfit").string(),
                                   "--stock", (models / "periodicals-cupboard-stock.json").string(),
                                   "-o", scratch.file("out"), "--json"});
  ASSERT_EQ(said.err, "");
  ASSERT_EQ(said.code, 0) << said.out;  // its stock list is wood enough
  const json report = json::parse(said.out);
  std::map<std::string, int> placed;
  for (const json& one : report["stock"]) {
    for (const json& blank : one["blanks"]) ++placed[blank["blank"]];
  }
  std::size_t blanks = 0;
  for (const json& material : report["materials"]) blanks += material["blanks"].get<std::size_t>();
  EXPECT_EQ(placed.size(), blanks);
  for (const auto& [name, times] : placed) EXPECT_EQ(times, 1) << name;
  for (const json& material : report["materials"]) {
    EXPECT_LE(material["bound"].get<double>(), material["cost"].get<double>() + 1e-6);
  }
}

TEST(LayoutVerb, MarksThePartsThatMustNotBeCutYet) {
  const Scratch scratch;
  // The top rail ends 5 short of the left stile.
  const std::string model = scratch.write(
      "frame.dryfit",
      replaced(frameModel(), R"("from": "left_stile.right")", R"("from": "left_stile.right + 5")"));
  const std::string stock = scratch.write("stock.json", boards(2400));
  const Said said =
      dryfitCommand({"layout", model, "--stock", stock, "-o", scratch.file("out"), "--labels"});
  EXPECT_EQ(said.code, 1) << said.err;
  EXPECT_THAT(said.out, HasSubstr("Do not cut yet:"));
  EXPECT_THAT(said.out, HasSubstr("Top rail stands 5 mm short of Left stile"));
  const json layout = json::parse(scratch.read("out/layout.json"));
  std::map<std::string, bool> marked;
  for (const auto& one : layout["stock"]) {
    for (const auto& blank : one["blanks"]) marked[blank["label"]] = blank.contains("do_not_cut");
  }
  EXPECT_EQ(marked, (std::map<std::string, bool>{{"Left stile", true},
                                                 {"Right stile", false},
                                                 {"Top rail", true},
                                                 {"Bottom rail", false}}));
}

TEST(LayoutVerb, SpeaksOfWhatFitsWhereNotAllDoes) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const std::string stock = scratch.write("stock.json", boards(800));
  const Said said = dryfitCommand({"layout", model, "--stock", stock, "-o", scratch.file("out")});
  EXPECT_EQ(said.code, 1) << said.err;
  EXPECT_THAT(said.out, HasSubstr("that fit from this stock"));
  EXPECT_THAT(said.out, Not(HasSubstr("these parts")));
  EXPECT_THAT(said.out, HasSubstr("Cost or area")) << "this board has no price";
}

}  // namespace
}  // namespace dryfit

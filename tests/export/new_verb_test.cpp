// A new piece from a few questions, at the command line.

#include <gmock/gmock.h>

#include <algorithm>
#include <cstdlib>
#include <iostream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "joinery/file/model_file.h"
#include "tests/support/scratch.h"

namespace dryfit {
namespace {

using nlohmann::ordered_json;
using testing::dryfitCommand;
using ::testing::HasSubstr;
using testing::Said;
using testing::Scratch;

/// The maker's own folder of starters is in the scratch folder as long as this lives.
class OwnStarters {
 public:
  explicit OwnStarters(const Scratch& scratch) {
    const char* before = std::getenv("XDG_DATA_HOME");
    if (before != nullptr) before_ = before;
    setenv("XDG_DATA_HOME", scratch.path().c_str(), 1);
    std::filesystem::create_directories(scratch.path() / "dryfit" / "starters");
  }
  OwnStarters(const OwnStarters&) = delete;
  OwnStarters& operator=(const OwnStarters&) = delete;
  ~OwnStarters() {
    if (before_.empty()) {
      unsetenv("XDG_DATA_HOME");
    } else {
      setenv("XDG_DATA_HOME", before_.c_str(), 1);
    }
  }

 private:
  std::string before_;
};

/// What is typed at the prompts as long as this lives.
class Typed {
 public:
  explicit Typed(const std::string& text) : text_(text), before_(std::cin.rdbuf(text_.rdbuf())) {
    std::cin.clear();
  }
  Typed(const Typed&) = delete;
  Typed& operator=(const Typed&) = delete;
  ~Typed() {
    std::cin.rdbuf(before_);
    std::cin.clear();
  }

 private:
  std::istringstream text_;
  std::streambuf* before_;
};

TEST(NewVerb, ListsWhatCanBeBegunWithItsQuestions) {
  const Scratch scratch;
  const OwnStarters own(scratch);
  const Said said = dryfitCommand({"new"});
  EXPECT_EQ(said.code, 0) << said.err;
  for (const char* name : {"table", "chest_of_drawers", "wardrobe", "trestles"}) {
    EXPECT_THAT(said.out, HasSubstr(name));
  }
  const ordered_json json = ordered_json::parse(dryfitCommand({"new", "--json"}).out);
  EXPECT_GE(json["starters"].size(), 16U);
  for (const ordered_json& starter : json["starters"]) {
    EXPECT_FALSE(starter["questions"].empty()) << starter["name"];
    EXPECT_FALSE(starter["note"].get<std::string>().empty()) << starter["name"];
    for (const ordered_json& question : starter["questions"]) {
      EXPECT_THAT(question["ask"].get<std::string>(), HasSubstr("?"));
      if (question.contains("least")) {
        EXPECT_TRUE(question.contains("why")) << question;
      }
    }
  }
}

TEST(NewVerb, WritesAnOrdinaryModelWithTheAnswers) {
  const Scratch scratch;
  const OwnStarters own(scratch);
  const std::string file = scratch.file("my-table.dryfit");
  const Said said =
      dryfitCommand({"new", "table", "--width", "1500", "--height=720", "--depth", "760", "--wood",
                     "white ash", "--title", "Table of my own", "-o", file});
  EXPECT_EQ(said.code, 0) << said.err;
  EXPECT_THAT(said.out, HasSubstr("1500 mm wide, 720 mm high, 760 mm deep"));
  const auto model = joinery::ModelFile::load(file);
  ASSERT_TRUE(model) << model.error().line();
  EXPECT_EQ(model->model().name, "Table of my own");
  EXPECT_EQ(dryfitCommand({"check", file}).code, 0);
  const Said again = dryfitCommand({"new", "table", "-o", file});
  EXPECT_EQ(again.code, 2);
  EXPECT_THAT(again.err, HasSubstr("there is a file of this name"));
  EXPECT_EQ(dryfitCommand({"new", "table", "-o", file, "--replace"}).code, 0);
}

TEST(NewVerb, AsksInTheTerminalUntilAnAnswerWillDo) {
  const Scratch scratch;
  const OwnStarters own(scratch);
  const std::string file = scratch.file("bench.dryfit");
  const Typed typed("5000\n1300\n\n\n\n");
  const Said said = dryfitCommand({"new", "bench", "--ask", "-o", file});
  EXPECT_EQ(said.code, 0) << said.err;
  EXPECT_THAT(said.out, HasSubstr("How wide? [1200 mm; 700 to 1700 mm]"));
  EXPECT_THAT(said.out, HasSubstr("5000 mm is too much: it goes from 700 to 1700 mm"));
  EXPECT_THAT(said.out, HasSubstr("1300 mm wide, 450 mm high"));
}

TEST(NewVerb, WritesNothingWhereAnAnswerIsWrong) {
  const Scratch scratch;
  const OwnStarters own(scratch);
  const auto lineOf = [&](std::vector<std::string> args) {
    args.insert(args.begin(), "new");
    args.insert(args.end(), {"-o", scratch.file("piece.dryfit")});
    const Said said = dryfitCommand(args);
    EXPECT_EQ(said.code, 2);
    EXPECT_EQ(std::ranges::count(said.err, '\n'), 1) << said.err;
    EXPECT_FALSE(std::filesystem::exists(scratch.file("piece.dryfit")));
    return said.err;
  };
  EXPECT_THAT(lineOf({"tabel"}), HasSubstr("there is no starter 'tabel'; did you mean 'table'?"));
  EXPECT_THAT(lineOf({"table", "--width", "9000"}),
              HasSubstr("too much: it goes from 900 to 2000 mm"));
  EXPECT_THAT(lineOf({"table", "--widht", "900"}), HasSubstr("did you mean 'width'?"));
  EXPECT_THAT(lineOf({"table", "--width"}), HasSubstr("'--width' has no answer"));
  EXPECT_THAT(lineOf({"table", "900"}), HasSubstr("stands alone"));
  const Typed typed("1000\n");
  EXPECT_THAT(lineOf({"bench", "--ask"}), HasSubstr("the answers ended before the questions"));
}

TEST(NewVerb, TakesAnyPieceOfTheMakersOwnFolder) {
  const Scratch scratch;
  const OwnStarters own(scratch);
  std::filesystem::copy_file(std::filesystem::path(DRYFIT_MODELS) / "starters" / "bench.dryfit",
                             scratch.path() / "dryfit" / "starters" / "garden_seat.dryfit");
  (void)scratch.write("dryfit/starters/broken.dryfit", "{");
  const ordered_json json = ordered_json::parse(dryfitCommand({"new", "--json"}).out);
  bool found = false;
  for (const ordered_json& starter : json["starters"]) {
    EXPECT_NE(starter["name"], "broken");
    found = found || (starter["name"] == "garden_seat" && starter["own"] == true);
  }
  EXPECT_TRUE(found);
  EXPECT_EQ(dryfitCommand({"new", "garden_seat", "--units", "in", "--width", "50", "-o",
                           scratch.file("seat.dryfit")})
                .code,
            0);
}

}  // namespace
}  // namespace dryfit

// Every verb on every starter: what comes on paper is all of the piece, and there is stock from
// which all of it can be cut.

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdint>
#include <nlohmann/json.hpp>
#include <random>

#include "joinery/file/model_file.h"
#include "tests/support/random_answers.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"
#include "tests/support/scratch.h"

namespace dryfit::test {
namespace {

using nlohmann::ordered_json;
using testing::dryfitCommand;
using testing::Said;
using testing::Scratch;

/// Stock that is ample for what the purchase list asks for.
ordered_json ampleStock(const ordered_json& purchase) {
  constexpr double kMore = 200;  // for ends, edges and trims
  ordered_json boards = ordered_json::object(), sheets = ordered_json::object();
  for (const ordered_json& row : purchase["timber"]) {
    for (int i = 0; i < row["pieces"].get<int>(); ++i) {
      const std::string name = "board " + std::to_string(boards.size() + 1);
      boards[name] = {{"species", row["species"]},
                      {"length", row["longest_mm"].get<double>() + kMore},
                      {"width", row["widest_mm"].get<double>() + kMore},
                      {"thickness", row["sold_thickness_mm"]}};
    }
  }
  for (const ordered_json& row : purchase["sheets"]) {
    sheets["sheet " + std::to_string(sheets.size() + 1)] = {
        {"species", row["species"]},
        {"length", row["sheet_mm"][0]},
        {"width", row["sheet_mm"][1]},
        {"thickness", row["thickness_mm"]},
        {"count", row["pieces"].get<int>() + 1}};
  }
  return {{"format", "dryfit-stock"},
          {"version", 1},
          {"unit", "mm"},
          {"boards", boards},
          {"sheets", sheets}};
}

/// Runs one verb, which must be fine, and gives what it says as JSON.
ordered_json run(std::vector<std::string> words, const std::string& what) {
  words.emplace_back("--json");
  const Said said = dryfitCommand(words);
  EXPECT_EQ(said.code, 0) << what << words[0] << ": " << said.err << said.out.substr(0, 400);
  const ordered_json json = ordered_json::parse(said.out, nullptr, false);
  EXPECT_FALSE(json.is_discarded()) << what << words[0];
  return json;
}

/// All parts of the piece are in the list, each once.
void expectAllParts(const ordered_json& list, std::size_t parts, const std::string& what) {
  std::size_t counted = 0;
  for (const ordered_json& material : list["materials"]) {
    for (const ordered_json& row : material["rows"]) counted += row["parts"].size();
  }
  EXPECT_EQ(counted, parts) << what;
}

void expectEveryVerbRuns(const joinery::ModelFile& file, const std::string& what) {
  const Scratch scratch;
  const std::string model = scratch.write("piece.dryfit", file.text());
  const std::size_t parts = file.model().parts.size();
  run({"check", model}, what);
  run({"parts", model}, what);
  run({"measure", model}, what);
  run({"mark", model}, what);
  run({"absorb", model}, what);
  expectAllParts(run({"cutlist", model}, what), parts, what);
  const ordered_json purchase = run({"buy", model}, what);
  EXPECT_GE(purchase["rough"].size(), 1U) << what;
  const std::string stock = scratch.write("stock.json", ampleStock(purchase).dump());
  run({"layout", model, "--stock", stock, "-o", scratch.file("layout")}, what);
  const ordered_json layout = ordered_json::parse(scratch.read("layout/layout.json"));
  EXPECT_TRUE(layout["unplaced"].empty()) << what << layout["unplaced"].dump();
  const ordered_json files = run({"packet", model, "-o", scratch.file("packet")}, what)["files"];
  const auto drawings = std::ranges::count_if(
      files, [](const ordered_json& name) { return name.get<std::string>().ends_with(".svg"); });
  EXPECT_GE(drawings, 2) << what;
}

TEST(Starters, GoThroughEveryVerbAsTheyStandAndWithOtherAnswers) {
  std::mt19937_64 random(seed());
  // Under the sanitizers one starter in six, another one each time.
  const std::uint64_t shares = repetitions(6) < 6 ? 6 : 1;
  const std::uint64_t share = random() % shares;
  std::uint64_t number = 0;
  for (const joinery::Starter& starter : builtInStarters()) {
    if (number++ % shares != share) continue;
    const joinery::ModelFile plain = starterFile(starter);
    expectEveryVerbRuns(plain, starter.name + " ");
    for (int i = 0; i < repetitions(1); ++i) {
      std::string answers = starter.name + ": ";
      const joinery::ModelFile other = answeredAtRandom(plain, random, answers);
      expectEveryVerbRuns(other, answers);
    }
    if (::testing::Test::HasFailure()) return;
  }
}

}  // namespace
}  // namespace dryfit::test

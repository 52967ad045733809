// A piece of which something cannot be made is shown, listed and drawn all the same, and no verb
// lets it pass as finished.

#include <gmock/gmock.h>

#include <nlohmann/json.hpp>

#include "tests/support/scratch.h"

namespace dryfit {
namespace {

using testing::dryfitCommand;
using testing::frameModel;
using ::testing::HasSubstr;
using testing::replaced;
using testing::Said;
using testing::Scratch;
using ::testing::StartsWith;

/// A shelf let into a block so deep and wide that nothing of the block stays.
std::string blockTakenAway() {
  return R"({"format": "dryfit-model", "version": 1, "name": "Block and shelf", "unit": "mm",
    "materials": {"oak18": {"kind": "solid", "species": "white oak", "thickness": 18},
                  "oak20": {"kind": "solid", "species": "white oak", "thickness": 20}},
    "parts": {
      "block": {"material": "oak18", "length": {"along": "z", "from": 300, "size": 20},
        "width": {"along": "y", "from": 0, "size": 100}, "thickness": {"along": "x", "from": 0}},
      "shelf": {"material": "oak20", "length": {"along": "x", "from": 18, "size": 300},
        "width": {"along": "y", "from": 0, "size": 100}, "thickness": {"along": "z", "from": 300}}},
    "joints": {"let_in": {"kind": "through-housing", "shelf": "shelf", "side": "block",
                          "depth": 18}}})";
}

/// The frame with its top rail out of reach of the left stile.
std::string railOutOfReach() {
  return replaced(frameModel(), R"("from": "left_stile.right")",
                  R"("from": "left_stile.right + 90")");
}

struct Unfinished {
  std::string model;
  std::string said;  ///< of what is missing
};

void expectUnfinished(const Unfinished& piece) {
  const Scratch scratch;
  const std::string model = scratch.write("piece.dryfit", piece.model);
  const std::string out = scratch.file("out"), step = scratch.file("piece.step");
  const std::vector<std::vector<std::string>> verbs{
      {"check", model},
      {"cutlist", model},
      {"buy", model},
      {"draw", model, "-o", out},
      {"step", model, "-o", step},
      {"packet", model, "-o", scratch.file("packet")}};
  for (const auto& verb : verbs) {
    const Said said = dryfitCommand(verb);
    EXPECT_EQ(said.code, 1) << verb[0] << ": " << said.err;
    EXPECT_FALSE(said.out.empty()) << verb[0];
  }
  EXPECT_THAT(dryfitCommand({"cutlist", model}).out, HasSubstr(piece.said));
  EXPECT_THAT(scratch.read("piece.step"), StartsWith("ISO-10303-21;"));
  EXPECT_THAT(scratch.read("packet/cut_list.txt"), HasSubstr("Cut list of"));
  EXPECT_FALSE(scratch.listing().empty());
}

TEST(Unfinished, WhereNoWoodIsLeftOfAPart) {
  expectUnfinished({blockTakenAway(), "no wood is left of block"});
}

TEST(Unfinished, WhereAJointCannotBeCut) {
  expectUnfinished({railOutOfReach(), "cannot be cut and is left out"});
}

TEST(Unfinished, TellsByJsonAsWell) {
  const Scratch scratch;
  const std::string model = scratch.write("piece.dryfit", blockTakenAway());
  const Said said = dryfitCommand({"check", model, "--json"});
  EXPECT_EQ(said.code, 1);
  const auto findings = nlohmann::json::parse(said.out)["findings"];
  EXPECT_TRUE(std::ranges::any_of(findings, [](const auto& f) {
    return f["kind"] == "not-cut" && f["parts"] == nlohmann::json{"block"};
  })) << said.out;
  for (const auto& f : findings) EXPECT_NE(f["kind"], "interference") << f["text"];
}

}  // namespace
}  // namespace dryfit

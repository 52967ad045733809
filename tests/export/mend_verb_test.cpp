// What one number would put right is listed, and put right by it.

#include <gmock/gmock.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "tests/support/scratch.h"

namespace dryfit {
namespace {

using nlohmann::ordered_json;
using testing::dryfitCommand;
using ::testing::HasSubstr;
using testing::Said;
using testing::Scratch;

std::string mistakes() {
  std::ifstream in(std::filesystem::path(DRYFIT_MODELS) / "mistakes.dryfit");
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

TEST(MendVerb, EachMendTakesItsFindingsAwayAndMakesNoNewOnes) {
  const Scratch scratch;
  const std::string model = scratch.write("stand.dryfit", mistakes());
  std::size_t made = 0;
  for (; made < 20; ++made) {
    const ordered_json listed = ordered_json::parse(dryfitCommand({"mend", model, "--json"}).out);
    EXPECT_EQ(listed["report"], "mends");
    if (listed["mends"].empty()) break;
    const std::string before = dryfitCommand({"check", model, "--json"}).out;
    const ordered_json done =
        ordered_json::parse(dryfitCommand({"mend", model, "1", "--json"}).out);
    EXPECT_EQ(done["made"], listed["mends"][0]);
    EXPECT_TRUE(done["new_findings"].empty()) << done.dump();
    for (const ordered_json& text : listed["mends"][0]["puts_right"]) {
      EXPECT_NE(std::ranges::find(done["gone"], text), done["gone"].end()) << text;
    }
    const std::size_t were = ordered_json::parse(before)["findings"].size();
    const std::size_t are =
        ordered_json::parse(dryfitCommand({"check", model, "--json"}).out)["findings"].size();
    EXPECT_LT(are, were);
  }
  EXPECT_GE(made, 5U);
}

TEST(MendVerb, ChangesNothingInADryRunOrByAWrongNumber) {
  const Scratch scratch;
  const std::string model = scratch.write("stand.dryfit", mistakes());
  const std::string before = scratch.read("stand.dryfit");
  EXPECT_THAT(dryfitCommand({"mend", model, "1", "--dry-run"}).out, HasSubstr("Not changed"));
  EXPECT_EQ(scratch.read("stand.dryfit"), before);
  const Said said = dryfitCommand({"mend", model, "99"});
  EXPECT_EQ(said.code, 2);
  EXPECT_THAT(said.err, HasSubstr("there is no mend 99; choose from 1 to"));
  EXPECT_EQ(scratch.read("stand.dryfit"), before);
}

}  // namespace
}  // namespace dryfit

#include "export/command_line.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <sstream>

#include "tests/support/scratch.h"

namespace dryfit {
namespace {

using nlohmann::json;
using testing::dryfitCommand;
using testing::frameModel;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::MatchesRegex;
using ::testing::Not;
using testing::Said;
using testing::Scratch;

void expectUsageError(const std::vector<std::string>& args, const std::string& part) {
  const Said said = dryfitCommand(args);
  EXPECT_EQ(said.code, 2);
  EXPECT_THAT(said.out, IsEmpty());
  EXPECT_EQ(std::count(said.err.begin(), said.err.end(), '\n'), 1) << said.err;
  EXPECT_THAT(said.err, HasSubstr(part));
}

TEST(CommandLine, HelpNamesEveryVerbAndTheExitCodes) {
  const Said said = dryfitCommand({"--help"});
  EXPECT_EQ(said.code, 0);
  for (const char* verb :
       {"parts", "check", "measure", "cutlist", "buy", "draw", "step", "packet"}) {
    EXPECT_THAT(said.out, HasSubstr(verb));
  }
  EXPECT_THAT(said.out, HasSubstr("Exit code"));
  EXPECT_THAT(said.err, IsEmpty());
}

TEST(CommandLine, EveryVerbExplainsItsOptions) {
  for (const char* verb :
       {"parts", "check", "measure", "cutlist", "buy", "draw", "step", "packet"}) {
    const Said said = dryfitCommand({verb, "--help"});
    EXPECT_EQ(said.code, 0) << verb;
    EXPECT_THAT(said.out, HasSubstr("--units")) << verb;
    EXPECT_THAT(said.out, HasSubstr("--as")) << verb;
    EXPECT_THAT(said.out, HasSubstr("--json")) << verb;
  }
}

TEST(CommandLine, VersionIsOneLine) {
  const Said said = dryfitCommand({"--version"});
  EXPECT_EQ(said.code, 0);
  EXPECT_THAT(said.out, MatchesRegex("dryfit [0-9]+\\.[0-9]+\\.[0-9]+\n"));
}

TEST(CommandLine, WrongUsageIsOneLineThatSaysWhatWouldBeRight) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  expectUsageError({}, "no verb is given");
  expectUsageError({"chek", model}, "did you mean check");
  expectUsageError({"--nonsense"}, "is not a verb");
  expectUsageError({"parts"}, "model is required");
  expectUsageError({"parts", model, "--nonsense"}, "--nonsense");
  expectUsageError({"parts", model, "another"}, "another");
  expectUsageError({"parts", model, "--units", "furlong"}, "furlong");
  expectUsageError({"parts", model, "--as", "wished"}, "wished");
  expectUsageError({"step", model}, "--output");
  expectUsageError({"draw", model, "-o", scratch.file("out"), "--format", "gif"}, "gif");
  expectUsageError({"readings", model, "--frame", "front"}, "--diagonals");
  expectUsageError({"parts", ""}, "");
}

TEST(CommandLine, PartsShowShoulderLengthsAndFinishedSizes) {
  const Scratch scratch;
  const Said said = dryfitCommand({"parts", scratch.write("frame.dryfit", frameModel())});
  EXPECT_EQ(said.code, 0) << said.err;
  EXPECT_THAT(said.out, HasSubstr("Parts of Test frame, sizes as drawn, in mm"));
  // Between the shoulders a rail is the frame less its two stiles: 400 - 2 * 62 = 276 mm.
  EXPECT_THAT(said.out, HasSubstr("276"));
  EXPECT_THAT(said.out, HasSubstr("Left stile"));
  EXPECT_THAT(said.out, HasSubstr("oak"));
  EXPECT_THAT(said.out, Not(HasSubstr(" \n")));
}

TEST(CommandLine, InchesAreShownAsFractions) {
  const Scratch scratch;
  const Said said =
      dryfitCommand({"parts", scratch.write("frame.dryfit", frameModel()), "--units", "in"});
  EXPECT_EQ(said.code, 0) << said.err;
  // 600 mm = 23.622 in = 23 5/8 in to the nearest 64th.
  EXPECT_THAT(said.out, HasSubstr("23 5/8"));
}

TEST(CommandLine, CheckSpeaksOfSizesInTheUnitAskedFor) {
  const std::string model = std::string(DRYFIT_MODELS) + "/mistakes.dryfit";
  const Said mm = dryfitCommand({"check", model});
  const Said inches = dryfitCommand({"check", model, "--units", "in"});
  EXPECT_THAT(mm.out, HasSubstr(" mm "));
  EXPECT_THAT(inches.out, HasSubstr(" in "));
  // The safety lines name sizes in both units, whoever reads them.
  const std::string findings = inches.out.substr(0, inches.out.find("Safety:"));
  EXPECT_THAT(findings, Not(HasSubstr(" mm ")));
  EXPECT_THAT(findings, Not(HasSubstr(" mm.")));

  json found = json::parse(dryfitCommand({"check", model, "--json"}).out)["findings"];
  json told =
      json::parse(dryfitCommand({"check", model, "--json", "--units", "in"}).out)["findings"];
  ASSERT_EQ(told.size(), found.size());
  for (std::size_t i = 0; i < found.size(); ++i) {
    EXPECT_THAT(told[i]["text"].get<std::string>(), Not(HasSubstr(" mm")));
    for (const char* words : {"text", "mend", "source"}) told[i][words] = found[i][words];
    EXPECT_EQ(told[i], found[i]) << "numbers are in millimetres whatever the unit";
  }
}

TEST(CommandLine, JsonIsInMillimetresWhateverTheUnit) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const Said mm = dryfitCommand({"parts", model, "--json"});
  const Said inches = dryfitCommand({"parts", model, "--json", "--units", "in"});
  EXPECT_EQ(mm.code, 0) << mm.err;
  EXPECT_EQ(mm.out, inches.out);
  const json report = json::parse(mm.out);
  EXPECT_EQ(report["report"], "parts");
  EXPECT_EQ(report["basis"], "drawn");
  int count = 0;
  for (const auto& row : report["parts"]) {
    count += row["count"].get<int>();
    EXPECT_GT(row["volume_mm3"].get<double>(), 0);
    EXPECT_LE(row["volume_mm3"].get<double>(), row["length_mm"].get<double>() *
                                                   row["width_mm"].get<double>() *
                                                   row["thickness_mm"].get<double>());
  }
  EXPECT_EQ(count, 4);
}

TEST(CommandLine, MeasuredSizesAreTakenWhereThereAreAnyAndTheReportSaysSo) {
  const Scratch scratch;
  const std::string model =
      scratch.write("frame.dryfit", testing::replaced(frameModel(), "\"joints\": {",
                                                      "\"measured\": {\"parts\": {\"left_stile\": "
                                                      "{\"width\": 60.8}}},\n  \"joints\": {"));
  const Said measured = dryfitCommand({"parts", model});
  EXPECT_EQ(measured.code, 0) << measured.err;
  EXPECT_THAT(measured.out, HasSubstr("sizes as measured"));
  // The rail grows by what the stile lost: 276 + 62 - 60.8 = 277.2 mm.
  EXPECT_THAT(measured.out, HasSubstr("277.2"));
  const Said drawn = dryfitCommand({"parts", model, "--as", "drawn"});
  EXPECT_THAT(drawn.out, HasSubstr("sizes as drawn"));
  EXPECT_THAT(drawn.out, Not(HasSubstr("277.2")));
}

TEST(CommandLine, PartsThatShareWoodEndTheCheckWithOne) {
  const Scratch scratch;
  // The rail now runs 20 mm into the stile with no joint that would make room for it there.
  std::string text = testing::replaced(frameModel(), "\"from\": \"left_stile.right\"",
                                       "\"from\": \"left_stile.right - 20\"");
  text = testing::replaced(
      text,
      "\"top_left\": {\"kind\": \"blind-mortise-tenon\", \"tenon\": \"top_rail\", "
      "\"mortise\": \"left_stile\"},",
      "");
  const Said said = dryfitCommand({"check", scratch.write("frame.dryfit", text), "--json"});
  EXPECT_EQ(said.code, 1) << said.err;
  EXPECT_THAT(said.err, IsEmpty());
  const json report = json::parse(said.out);
  const auto interference =
      std::find_if(report["findings"].begin(), report["findings"].end(),
                   [](const json& finding) { return finding["kind"] == "interference"; });
  ASSERT_NE(interference, report["findings"].end()) << said.out;
  EXPECT_EQ((*interference)["severity"], "error");
  // Closed form: 20 mm of a rail 62 mm wide and 23 mm thick.
  EXPECT_NEAR((*interference)["measured"].get<double>(), 20 * 62 * 23, 1e-3);
}

TEST(CommandLine, AFrameThatFitsEndsTheCheckWithZero) {
  const Scratch scratch;
  const Said said = dryfitCommand({"check", scratch.write("frame.dryfit", frameModel())});
  EXPECT_EQ(said.code, 0) << said.out << said.err;
  EXPECT_THAT(said.out, HasSubstr("0 errors"));
  EXPECT_THAT(said.out, HasSubstr("Safety:"));
}

TEST(CommandLine, VerboseTellsOnStandardErrorWithoutChangingTheReport) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const Said plain = dryfitCommand({"parts", model});
  const Said verbose = dryfitCommand({"parts", model, "--verbose"});
  EXPECT_EQ(plain.out, verbose.out);
  EXPECT_THAT(plain.err, IsEmpty());
  EXPECT_THAT(verbose.err, HasSubstr("reading"));
}

TEST(CommandLine, AReportThatCannotBeWrittenIsAFailure) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  std::ostringstream out, err;
  out.setstate(std::ios::badbit);
  EXPECT_EQ(exporting::run({"parts", model}, out, err), 2);
  EXPECT_THAT(err.str(), HasSubstr("standard output"));
}

}  // namespace
}  // namespace dryfit

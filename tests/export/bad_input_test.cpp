#include <gmock/gmock.h>

#include <algorithm>

#include "tests/support/scratch.h"

namespace dryfit {
namespace {

using testing::dryfitCommand;
using testing::frameModel;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using testing::replaced;
using testing::Said;
using testing::Scratch;
using ::testing::StartsWith;
using testing::WithoutRights;

/// One line on standard error, nothing on standard output, code 2.
void expectOneLine(const Said& said) {
  EXPECT_EQ(said.code, 2);
  EXPECT_THAT(said.out, IsEmpty());
  EXPECT_EQ(std::count(said.err.begin(), said.err.end(), '\n'), 1) << said.err;
  EXPECT_TRUE(said.err.ends_with('\n'));
}

struct BadModel {
  const char* name;
  const char* from;
  const char* to;
  std::vector<std::string> said;  ///< place, fault and mend, as far as they must be named
};

std::ostream& operator<<(std::ostream& out, const BadModel& bad) {
  return out << bad.name;
}

class BadModelFile : public ::testing::TestWithParam<BadModel> {};

TEST_P(BadModelFile, IsNamedInOneLineAndChangesNothing) {
  const BadModel& bad = GetParam();
  const Scratch scratch;
  const std::string model = scratch.write("bad.dryfit", replaced(frameModel(), bad.from, bad.to));
  const auto before = scratch.listing();
  const std::vector<std::vector<std::string>> commands{
      {"parts", model},
      {"check", model},
      {"cutlist", model, "--csv", scratch.file("list.csv"), "--xlsx", scratch.file("list.xlsx")},
      {"buy", model, "--csv", scratch.file("buy.csv"), "--list", scratch.file("buy.txt")},
      {"measure", model, "left_stile.width=55"},
      {"step", model, "-o", scratch.file("piece.step")},
      {"draw", model, "-o", scratch.file("drawings")},
      {"packet", model, "-o", scratch.file("packet")},
  };
  for (const auto& command : commands) {
    SCOPED_TRACE(command.front());
    const Said said = dryfitCommand(command);
    expectOneLine(said);
    EXPECT_THAT(said.err, StartsWith(model));
    for (const std::string& part : bad.said) EXPECT_THAT(said.err, HasSubstr(part));
    EXPECT_EQ(scratch.listing(), before);
  }
}

INSTANTIATE_TEST_SUITE_P(
    All, BadModelFile,
    ::testing::Values(
        BadModel{"MisspeltKey",
                 "\"material\": \"oak\"",
                 "\"matrial\": \"oak\"",
                 {"parts.left_stile", "matrial", "material"}},
        BadModel{"Cycle",
                 "\"stile_width\": 62",
                 "\"stile_width\": \"top_rail.width\"",
                 {"stile_width", "top_rail.width", " -> "}},
        BadModel{"ZeroWidth", "\"stile_width\": 62", "\"stile_width\": 0", {"width", "0"}},
        BadModel{
            "NegativeSize", "\"size\": \"frame_height\"", "\"size\": -5", {"left_stile.length"}},
        BadModel{"MissingPart",
                 "\"tenon\": \"top_rail\"",
                 "\"tenon\": \"top_rial\"",
                 {"joints.top_left", "top_rial", "top_rail"}},
        BadModel{"UnknownName",
                 "\"left_stile.right\"",
                 "\"left_stle.right\"",
                 {"parts.top_rail", "left_stle", "left_stile"}},
        BadModel{"NotJson", "\"version\": 1,", "\"version\": 1", {"line 4"}},
        BadModel{"HugeNumber",
                 "\"frame_height\": 600",
                 "\"frame_height\": 1e300",
                 {"left_stile.length", "1e+300", "100 m"}},
        BadModel{"BeyondNumbers", "\"frame_height\": 600", "\"frame_height\": 1e999", {""}},
        BadModel{
            "WrongUnit", "\"unit\": \"mm\"", "\"unit\": \"furlong\"", {"unit", "furlong", "mm"}},
        BadModel{"UnknownJoint",
                 "blind-mortise-tenon",
                 "blind-mortice-tennon",
                 {"joints.top_left", "blind-mortice-tennon", "blind-mortise-tenon"}},
        BadModel{"UnknownFormat", "dryfit-model", "something-else", {"format"}},
        BadModel{
            "LaterVersion", "\"version\": 1", "\"version\": 99", {"version", "reads version 1"}},
        BadModel{"BadExpression",
                 "\"size\": \"stile_width\"",
                 "\"size\": \"stile_width +\"",
                 {"parts.left_stile.width"}},
        BadModel{"LineBreakInName",
                 "\"material\": \"oak\"",
                 "\"material\": \"o\\na\\nk\"",
                 {"parts.left_stile"}}),
    [](const auto& one) { return one.param.name; });

TEST(BadInput, AMissingFileIsNamed) {
  const Scratch scratch;
  const Said said = dryfitCommand({"check", scratch.file("nowhere.dryfit")});
  expectOneLine(said);
  EXPECT_THAT(said.err, StartsWith(scratch.file("nowhere.dryfit")));
}

TEST(BadInput, AFolderIsNotAModel) {
  const Scratch scratch;
  const Said said = dryfitCommand({"check", scratch.path().string()});
  expectOneLine(said);
  EXPECT_THAT(said.err, StartsWith(scratch.path().string()));
}

TEST(BadInput, AnUnreadableFileIsNamed) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  std::filesystem::permissions(model, std::filesystem::perms::none);
  const WithoutRights rights;
  const Said said = dryfitCommand({"check", model});
  expectOneLine(said);
  EXPECT_THAT(said.err, StartsWith(model));
}

TEST(BadInput, AnEmptyFileIsNotAModel) {
  const Scratch scratch;
  expectOneLine(dryfitCommand({"check", scratch.write("empty.dryfit", "")}));
}

TEST(BadInput, AFileOfNoiseIsNotAModel) {
  const Scratch scratch;
  std::string noise;
  unsigned state = 12345;  // a fixed sequence of bytes, whichever they are
  for (int i = 0; i < 4000; ++i) {
    state = state * 1664525U + 1013904223U;
    noise += static_cast<char>(state >> 24U);
  }
  expectOneLine(dryfitCommand({"check", scratch.write("noise.dryfit", noise)}));
}

TEST(BadInput, DeepNestingIsRefused) {
  const Scratch scratch;
  expectOneLine(dryfitCommand({"check", scratch.write("deep.dryfit", std::string(20'000, '['))}));
}

/// Commands that write, each to a place below `where`.
std::vector<std::vector<std::string>> writersTo(const std::string& model,
                                                const std::string& where) {
  return {{"cutlist", model, "--csv", where + "/list.csv"},
          {"cutlist", model, "--xlsx", where + "/list.xlsx"},
          {"buy", model, "--list", where + "/buy.txt"},
          {"step", model, "-o", where + "/piece.step"},
          {"draw", model, "-o", where + "/drawings"},
          {"packet", model, "-o", where + "/packet"}};
}

TEST(BadInput, AFolderThatMayNotBeWrittenInIsNamedAndStaysAsItWas) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  std::filesystem::create_directory(scratch.path() / "locked");
  std::filesystem::permissions(scratch.path() / "locked", std::filesystem::perms(0555));
  const auto before = scratch.listing();
  const WithoutRights rights;
  for (const auto& command : writersTo(model, scratch.file("locked"))) {
    SCOPED_TRACE(command.front());
    const Said said = dryfitCommand(command);
    expectOneLine(said);
    EXPECT_THAT(said.err, HasSubstr("locked"));
    EXPECT_EQ(scratch.listing(), before);
  }
}

TEST(BadInput, AFileIsNotAFolderToWriteIn) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  (void)scratch.write("taken", "a file");
  const auto before = scratch.listing();
  for (const auto& command : writersTo(model, scratch.file("taken"))) {
    SCOPED_TRACE(command.front());
    expectOneLine(dryfitCommand(command));
    EXPECT_EQ(scratch.listing(), before);
  }
}

TEST(BadInput, AFolderIsNotAFileToWrite) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  std::filesystem::create_directory(scratch.path() / "taken");
  const auto before = scratch.listing();
  const std::string taken = scratch.file("taken");
  for (const auto& command : std::vector<std::vector<std::string>>{
           {"cutlist", model, "--csv", taken},
           {"cutlist", model, "--csv", scratch.file("list.csv"), "--xlsx", taken},
           {"buy", model, "--csv", scratch.file("buy.csv"), "--list", taken},
           {"step", model, "-o", taken}}) {
    SCOPED_TRACE(command.front());
    expectOneLine(dryfitCommand(command));
    EXPECT_EQ(scratch.listing(), before);
  }
}

}  // namespace
}  // namespace dryfit

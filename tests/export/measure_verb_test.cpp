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
using testing::replaced;
using testing::Said;
using testing::Scratch;
using testing::WithoutRights;

/// The change of one size of one part, or null.
json changeOf(const json& report, const std::string& part, const std::string& size) {
  for (const auto& change : report["sizes"]) {
    if (change["part"] == part && change["size"] == size) return change;
  }
  return nullptr;
}

TEST(MeasureVerb, ANarrowerStileMakesItsRailsLonger) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const Said said = dryfitCommand({"measure", model, "left_stile.width=60.8", "--json"});
  ASSERT_EQ(said.code, 0) << said.err;
  const json report = json::parse(said.out);
  EXPECT_EQ(report["saved"], true);
  const json stile = changeOf(report, "left_stile", "width");
  ASSERT_FALSE(stile.is_null()) << said.out;
  EXPECT_NEAR(stile["before_mm"].get<double>(), 62, 1e-9);
  EXPECT_NEAR(stile["after_mm"].get<double>(), 60.8, 1e-9);
  for (const char* rail : {"top_rail", "bottom_rail"}) {
    const json shoulder = changeOf(report, rail, "shoulder length");
    ASSERT_FALSE(shoulder.is_null()) << said.out;
    EXPECT_NEAR(shoulder["before_mm"].get<double>(), 276, 1e-9);
    EXPECT_NEAR(shoulder["after_mm"].get<double>(), 277.2, 1e-9);
  }
  EXPECT_TRUE(changeOf(report, "right_stile", "width").is_null());
}

TEST(MeasureVerb, TellsTheErrorsThatANewSizeMakesAndRecordsIt) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const Said said = dryfitCommand({"measure", model, "top_rail.width=480"});
  EXPECT_EQ(said.code, 1) << said.err;
  EXPECT_THAT(said.out, HasSubstr("that were not there before"));
  EXPECT_THAT(said.out, HasSubstr("Recorded in"));
  EXPECT_THAT(scratch.read("frame.dryfit"), HasSubstr("480"));
  const Said again = dryfitCommand({"measure", model, "top_rail.width=480"});
  EXPECT_EQ(again.code, 0) << "nothing new: " << again.out;
}

TEST(MeasureVerb, WhatIsRecordedIsReadAgainAndCanBeTakenBack) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  ASSERT_EQ(dryfitCommand({"measure", model, "left_stile.width=60.8"}).code, 0);
  EXPECT_THAT(dryfitCommand({"parts", model}).out, HasSubstr("277.2"));
  const Said back = dryfitCommand({"measure", model, "left_stile.width=", "--json"});
  ASSERT_EQ(back.code, 0) << back.err;
  const json shoulder = changeOf(json::parse(back.out), "top_rail", "shoulder length");
  EXPECT_NEAR(shoulder["after_mm"].get<double>(), 276, 1e-9);
  EXPECT_THAT(dryfitCommand({"parts", model}).out, HasSubstr("sizes as drawn"));
}

TEST(MeasureVerb, SizesKeepTheUnitTheyWereTypedIn) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const Said said = dryfitCommand({"measure", model, "left_stile.width=2 3/8 in", "--json"});
  ASSERT_EQ(said.code, 0) << said.err;
  // 2 3/8 in = 2.375 * 25.4 = 60.325 mm.
  EXPECT_NEAR(changeOf(json::parse(said.out), "left_stile", "width")["after_mm"].get<double>(),
              60.325, 1e-9);
  EXPECT_THAT(scratch.read("frame.dryfit"), HasSubstr("2 3/8 in"));
}

TEST(MeasureVerb, ABatchWinsOverItsMaterialAndAPartOverItsBatch) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const Said said = dryfitCommand({"measure", model, "--material", "oak.thickness=22.3", "--batch",
                                   "october.thickness=22.4", "--json"});
  ASSERT_EQ(said.code, 0) << said.err;
  const json report = json::parse(said.out);
  EXPECT_NEAR(changeOf(report, "left_stile", "thickness")["after_mm"].get<double>(), 22.4, 1e-9);
  EXPECT_NEAR(changeOf(report, "right_stile", "thickness")["after_mm"].get<double>(), 22.3, 1e-9);
  const Said part = dryfitCommand({"measure", model, "left_stile.thickness=22.5", "--json"});
  ASSERT_EQ(part.code, 0) << part.err;
  EXPECT_NEAR(changeOf(json::parse(part.out), "left_stile", "thickness")["after_mm"].get<double>(),
              22.5, 1e-9);
}

TEST(MeasureVerb, JointNumbersThatFollowTheWoodAreReported) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const Said said = dryfitCommand({"measure", model, "--material", "oak.thickness=22.1", "--json"});
  ASSERT_EQ(said.code, 0) << said.err;
  const json report = json::parse(said.out);
  // Thinner rails and stiles leave less shoulder beside the tenon at each of the four joints.
  for (const char* joint : {"top_left", "top_right", "bottom_left", "bottom_right"}) {
    EXPECT_TRUE(std::any_of(report["joints"].begin(), report["joints"].end(),
                            [joint](const json& change) { return change["joint"] == joint; }))
        << joint << "\n"
        << said.out;
  }
}

TEST(MeasureVerb, OneOptionTakesSeveralMaterials) {
  const Scratch scratch;
  const std::string model =
      scratch.write("frame.dryfit", replaced(frameModel(), "\"materials\": {",
                                             "\"materials\": {\"ash\": {\"kind\": \"solid\", "
                                             "\"species\": \"white ash\", \"thickness\": 20},"));
  const Said said = dryfitCommand(
      {"measure", model, "--material", "ash.thickness=19.5", "oak.thickness=22.3", "--json"});
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_NEAR(changeOf(json::parse(said.out), "right_stile", "thickness")["after_mm"].get<double>(),
              22.3, 1e-9);
  const json written = json::parse(scratch.read("frame.dryfit"));
  EXPECT_EQ(written["measured"]["materials"]["ash"]["thickness"], 19.5);
  EXPECT_EQ(written["measured"]["materials"]["oak"]["thickness"], 22.3);
}

TEST(MeasureVerb, OptionsLeaveTheSizesThatFollowAlone) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const Said said = dryfitCommand({"measure", model, "--material", "oak.thickness=22.3",
                                   "left_stile.width=60.8", "top_rail.width=61", "--json"});
  ASSERT_EQ(said.code, 0) << said.err;
  const json report = json::parse(said.out);
  EXPECT_FALSE(changeOf(report, "left_stile", "width").is_null());
  EXPECT_FALSE(changeOf(report, "top_rail", "width").is_null());
  EXPECT_FALSE(changeOf(report, "right_stile", "thickness").is_null());
}

TEST(MeasureVerb, ADryRunShowsTheChangesAndSavesNothing) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const auto before = scratch.listing();
  const Said said = dryfitCommand({"measure", model, "left_stile.width=60.8", "--dry-run"});
  EXPECT_EQ(said.code, 0) << said.err;
  EXPECT_THAT(said.out, HasSubstr("277.2"));
  EXPECT_THAT(said.out, HasSubstr("Not recorded"));
  EXPECT_EQ(scratch.listing(), before);
}

TEST(MeasureVerb, OnlyTheModelChangesAndNothingIsLeftBesideIt) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  ASSERT_EQ(dryfitCommand({"measure", model, "left_stile.width=60.8"}).code, 0);
  EXPECT_EQ(scratch.listing().size(), 1);
}

TEST(MeasureVerb, BadSizesAreNamedInOneLineAndChangeNothing) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const auto before = scratch.listing();
  const struct {
    std::vector<std::string> args;
    const char* said;
  } cases[] = {
      {{"left_stile.width"}, "left_stile.width"},
      {{"width=55"}, "width=55"},
      {{"left_stile=55"}, "left_stile=55"},
      {{"left_stile.widht=55"}, "did you mean width"},
      {{"left_stle.width=55"}, "left_stile"},
      {{"left_stile.width=wide"}, "wide"},
      {{"left_stile.width=-3"}, "greater than zero"},
      {{"left_stile.width=0"}, "greater than zero"},
      {{"left_stile.width=1e99"}, "left_stile.width"},
      {{"left_stile.width=55 furlong"}, "furlong"},
      {{"left_stile.width=55", "right_stle.width=55"}, "right_stile"},
      {{"--material", "ork.thickness=21"}, "oak"},
      {{"--material", "oak.width=21"}, "thickness"},
      {{"--batch", "octobre.thickness=21"}, "october"},
      // A stile as wide as the frame leaves no rail: the sizes would not fit together.
      {{"left_stile.width=400"}, "top_rail"},
  };
  for (const auto& one : cases) {
    std::vector<std::string> args{"measure", model};
    args.insert(args.end(), one.args.begin(), one.args.end());
    SCOPED_TRACE(one.args.back());
    const Said said = dryfitCommand(args);
    EXPECT_EQ(said.code, 2);
    EXPECT_THAT(said.out, IsEmpty());
    EXPECT_EQ(std::count(said.err.begin(), said.err.end(), '\n'), 1) << said.err;
    EXPECT_THAT(said.err, HasSubstr(one.said));
    EXPECT_EQ(scratch.listing(), before);
  }
}

TEST(MeasureVerb, AModelInALockedFolderStaysWhole) {
  const Scratch scratch;
  std::filesystem::create_directory(scratch.path() / "locked");
  const std::string model = scratch.write("locked/frame.dryfit", frameModel());
  std::filesystem::permissions(scratch.path() / "locked", std::filesystem::perms(0555));
  const auto before = scratch.listing();
  const WithoutRights rights;
  const Said said = dryfitCommand({"measure", model, "left_stile.width=60.8"});
  EXPECT_EQ(said.code, 2);
  EXPECT_EQ(std::count(said.err.begin(), said.err.end(), '\n'), 1) << said.err;
  EXPECT_EQ(scratch.listing(), before);
}

}  // namespace
}  // namespace dryfit

#include "export/packet/packet.h"

#include "joinery/joints/evaluate.h"

#include <gmock/gmock.h>

#include <nlohmann/json.hpp>

#include "export/files/output_folder.h"
#include "export/files/write_together.h"
#include "export/words/caution.h"
#include "joinery/file/model_file.h"
#include "tests/support/scratch.h"

namespace dryfit {
namespace {

using exporting::OutputFolder;
using ::testing::Contains;
using testing::dryfitCommand;
using testing::frameModel;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::replaced;
using testing::Said;
using testing::Scratch;
using ::testing::StartsWith;
using testing::WithoutRights;

namespace fs = std::filesystem;

TEST(Packet, HoldsEverythingForTheBench) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const Said said = dryfitCommand({"packet", model, "-o", scratch.file("packet"), "--json"});
  ASSERT_EQ(said.code, 0) << said.err << said.out;
  EXPECT_THAT(scratch.read("packet/check.txt"), HasSubstr("Safety:"));
  EXPECT_THAT(scratch.read("packet/cut_list.txt"), HasSubstr("Safety:"));
  EXPECT_THAT(scratch.read("packet/cut_list.csv"), StartsWith("number,part"));
  EXPECT_THAT(scratch.read("packet/cut_list.xlsx"), StartsWith("PK"));
  EXPECT_THAT(scratch.read("packet/to_buy.txt"), HasSubstr("white oak  27 mm"));
  EXPECT_THAT(scratch.read("packet/to_buy.xlsx"), StartsWith("PK"));
  EXPECT_THAT(scratch.read("packet/assembly.step"), StartsWith("ISO-10303-21;"));
  EXPECT_THAT(scratch.read("packet/drawings.pdf"), StartsWith("%PDF"));
  EXPECT_THAT(scratch.read("packet/drawings/00-assembly.svg"), HasSubstr("<svg"));
  EXPECT_THAT(scratch.read("packet/drawings/01-left-stile.svg"), HasSubstr("<svg"));
  // What it says it wrote is what is there, and nothing else.
  std::size_t files = 0;
  for (const auto& [name, bytes] : scratch.listing()) {
    if (fs::is_regular_file(scratch.path() / name)) ++files;
  }
  const auto listed = nlohmann::json::parse(said.out)["files"];
  EXPECT_EQ(listed.size(), files - 1);  // less the model
  for (const auto& file : listed) EXPECT_TRUE(fs::is_regular_file(file.get<std::string>()));
}

TEST(Packet, ReplacesItsOwnFilesAndLeavesOthersAlone) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  fs::create_directory(scratch.path() / "packet");
  (void)scratch.write("packet/check.txt", "old");
  (void)scratch.write("packet/mine.txt", "mine");
  ASSERT_EQ(dryfitCommand({"packet", model, "-o", scratch.file("packet")}).code, 0);
  EXPECT_EQ(scratch.read("packet/mine.txt"), "mine");
  EXPECT_NE(scratch.read("packet/check.txt"), "old");
  for (const auto& [name, bytes] : scratch.listing()) {
    EXPECT_THAT(name, Not(HasSubstr(".dryfit-"))) << "scratch files are left";
  }
}

TEST(Packet, MakesTheFoldersOnTheWayToItsOwn) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  ASSERT_EQ(dryfitCommand({"draw", model, "-o", scratch.file("a/b/c"), "--format", "svg"}).code, 0);
  EXPECT_TRUE(fs::exists(scratch.path() / "a/b/c/00-assembly.svg"));
}

TEST(Packet, APacketThatCannotBeFinishedLeavesTheOldOneWhole) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  fs::create_directories(scratch.path() / "packet/drawings.pdf");  // in the way of a file
  (void)scratch.write("packet/check.txt", "old");
  const auto before = scratch.listing();
  const Said said = dryfitCommand({"packet", model, "-o", scratch.file("packet")});
  EXPECT_EQ(said.code, 2);
  EXPECT_THAT(said.err, HasSubstr("drawings.pdf"));
  EXPECT_EQ(scratch.listing(), before);
}

TEST(Draw, WritesOnePdfADrawing) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  ASSERT_EQ(dryfitCommand({"draw", model, "-o", scratch.file("out")}).code, 0);
  EXPECT_THAT(scratch.read("out/00-assembly.pdf"), StartsWith("%PDF"));
  EXPECT_THAT(scratch.read("out/01-left-stile.pdf"), StartsWith("%PDF"));
}

TEST(OutputFolder, ShowsNothingBeforeItIsCommitted) {
  const Scratch scratch;
  {
    const auto folder = OutputFolder::prepare(scratch.path() / "out");
    ASSERT_TRUE(folder);
    ASSERT_TRUE(folder->write("a.txt", "a"));
    EXPECT_FALSE(fs::exists(scratch.path() / "out"));
  }
  EXPECT_TRUE(scratch.listing().empty()) << "an abandoned folder leaves something behind";
}

/// As if the program had been started there, until this goes.
class StartedIn {
 public:
  explicit StartedIn(const fs::path& folder) : before_(fs::current_path()) {
    fs::current_path(folder);
  }
  ~StartedIn() { fs::current_path(before_); }
  StartedIn(const StartedIn&) = delete;
  StartedIn& operator=(const StartedIn&) = delete;

 private:
  fs::path before_;
};

TEST(OutputFolder, IsMadeWhereTheProgramWasStarted) {
  const Scratch scratch;
  for (const char* name : {"drawings", "./sheets", "a/b/c", "d/../e"}) {
    const StartedIn started(scratch.path());
    const auto folder = OutputFolder::prepare(name);
    ASSERT_TRUE(folder) << name;
    ASSERT_TRUE(folder->write("a.txt", name));
    ASSERT_TRUE(folder->commit()) << name;
  }
  EXPECT_EQ(scratch.read("drawings/a.txt"), "drawings");
  EXPECT_EQ(scratch.read("sheets/a.txt"), "./sheets");
  EXPECT_EQ(scratch.read("a/b/c/a.txt"), "a/b/c");
  EXPECT_EQ(scratch.read("e/a.txt"), "d/../e");
}

TEST(OutputFolder, PutsBackWhatItReplacedWhenALaterFileFails) {
  const Scratch scratch;
  fs::create_directories(scratch.path() / "out/sub/z.txt");  // a folder where a file should go
  (void)scratch.write("out/a.txt", "old");
  const auto before = scratch.listing();
  {
    const auto folder = OutputFolder::prepare(scratch.path() / "out");
    ASSERT_TRUE(folder);
    ASSERT_TRUE(folder->write("a.txt", "new"));
    ASSERT_TRUE(folder->write("fresh/b.txt", "new"));
    ASSERT_TRUE(folder->write("sub/z.txt", "new"));
    EXPECT_FALSE(folder->commit());
  }
  EXPECT_EQ(scratch.listing(), before);
}

TEST(WriteTogether, ChangesAllFilesOrNone) {
  const Scratch scratch;
  (void)scratch.write("a.txt", "old");
  const auto before = scratch.listing();
  const auto nowhere = scratch.path() / "missing" / "b.txt";
  EXPECT_FALSE(exporting::writeTogether({{scratch.path() / "a.txt", "new"}, {nowhere, "new"}}));
  EXPECT_EQ(scratch.listing(), before);
  ASSERT_TRUE(exporting::writeTogether(
      {{scratch.path() / "a.txt", "new"}, {scratch.path() / "b.txt", "new"}}));
  EXPECT_EQ(scratch.read("a.txt"), "new");
  EXPECT_EQ(scratch.read("b.txt"), "new");
  EXPECT_EQ(scratch.listing().size(), 2);
}

std::string safetyOf(const std::string& text) {
  const auto file = joinery::ModelFile::parse(text, "test");
  EXPECT_TRUE(file) << file.error().line();
  const auto piece = joinery::evaluate(file->model(), joinery::Basis::drawn);
  EXPECT_TRUE(piece) << piece.error().line();
  return exporting::safetyText(*piece);
}

TEST(Caution, TallPiecesAreToBeFixedToTheWall) {
  EXPECT_THAT(safetyOf(frameModel()), Not(HasSubstr("tip over")));
  EXPECT_THAT(safetyOf(replaced(frameModel(), "\"frame_height\": 600", "\"frame_height\": 700")),
              HasSubstr("tip over"));
}

TEST(Caution, LidsAreToBeHeldOpen) {
  EXPECT_THAT(safetyOf(replaced(frameModel(), "\"Top rail\"", "\"Lid rail\"")), HasSubstr("stay"));
  EXPECT_THAT(safetyOf(replaced(frameModel(), "\"Top rail\"", "\"Solid rail\"")),
              Not(HasSubstr("stay")));
}

/// Bottom and lid, of plywood, of a box of this length, width and height.
std::string boxModel(int length, int width, int height, const std::string& lid = "lid") {
  const auto span = [](const std::string& axis, int from, int size) {
    return "{\"along\": \"" + axis + "\", \"from\": " + std::to_string(from) +
           ", \"size\": " + std::to_string(size) + "}";
  };
  const auto board = [&](const std::string& name, int z) {
    return "\"" + name + R"(": {"material": "ply", "grain": "none", "length": )" +
           span("x", 0, length) + ", \"width\": " + span("y", 0, width) +
           ", \"thickness\": " + span("z", z, 12) + "}";
  };
  const std::string bottom = board("bottom", 0);
  const std::string top = board(lid, height - 12);
  return R"({"format": "dryfit-model", "version": 1, "name": "Chart box", "unit": "mm",
             "materials": {"ply": {"kind": "sheet", "thickness": 12}}, "parts": {)" +
         bottom + ", " + top + "}}";
}

// A box of the height of a table, 750, as deep as one or as slim as a cupboard.
TEST(Caution, WhatIsAsDeepAsItIsHighStandsByItself) {
  EXPECT_THAT(safetyOf(boxModel(1600, 800, 750, "top")), Not(HasSubstr("tip over")));
  EXPECT_THAT(safetyOf(boxModel(1600, 400, 750, "top")), HasSubstr("tip over"));
}

// The sizes are those of a national toy standard (docs.cntd.ru/document/1200086022): over 0.03 m³
// and 150 mm each way.
TEST(Caution, ABoxWithALidNeedsAirFromTheSizeThatAChildFitsIn) {
  EXPECT_THAT(safetyOf(boxModel(400, 300, 251)), HasSubstr("air holes"));
  EXPECT_THAT(safetyOf(boxModel(400, 300, 249)), Not(HasSubstr("air holes")));
  EXPECT_THAT(safetyOf(boxModel(1200, 400, 149)), Not(HasSubstr("air holes")));
  EXPECT_THAT(safetyOf(boxModel(400, 300, 249)), HasSubstr("stay"));
  EXPECT_THAT(safetyOf(boxModel(400, 300, 251, "top")), Not(HasSubstr("air holes")));
}

TEST(Caution, WhatHangsOnAWallNeedsFixingsForItsLoad) {
  const std::string rated = "rated for the loaded weight";
  EXPECT_THAT(safetyOf(frameModel()), Not(HasSubstr(rated)));
  EXPECT_THAT(safetyOf(replaced(frameModel(), "Test frame", "Wall frame")), HasSubstr(rated));
  EXPECT_THAT(safetyOf(replaced(frameModel(), "Test frame", "Wallflower frame")),
              Not(HasSubstr(rated)));
  const auto hardware = [](const std::string& goods) {
    return safetyOf(
        replaced(frameModel(), "\"materials\"", "\"hardware\": {" + goods + "}, \"materials\""));
  };
  EXPECT_THAT(hardware(R"("wall_screw": {"count": 2})"), HasSubstr(rated));
  EXPECT_THAT(hardware(R"("plate": {"count": 2, "note": "it hangs on these"})"), HasSubstr(rated));
  EXPECT_THAT(hardware(R"("hinge": {"count": 2, "note": "brass"})"), Not(HasSubstr(rated)));
}

TEST(Caution, RoughBoardsAreFlattenedFirst) {
  EXPECT_THAT(safetyOf(frameModel()), HasSubstr("flatten one face and straighten one edge"));
  EXPECT_THAT(safetyOf(boxModel(400, 300, 251)), Not(HasSubstr("flatten one face")));
}

// 300 mm: hse.gov.uk/woodworking asks for a push block or another way below it on the planer.
TEST(Caution, ShortAndThinPartsAreKeptOffThePlaner) {
  const std::string off = "keep them off jointer, planer and thicknesser";
  EXPECT_THAT(safetyOf(frameModel()), Not(HasSubstr(off)));
  EXPECT_THAT(safetyOf(replaced(frameModel(), "\"frame_width\": 400", "\"frame_width\": 320")),
              HasSubstr(off));
  EXPECT_TRUE(exporting::isSmall(299, 20, true));
  EXPECT_FALSE(exporting::isSmall(300, 20, true));
  EXPECT_TRUE(exporting::isSmall(900, 5.9, true));
  EXPECT_FALSE(exporting::isSmall(900, 4, false));  // plywood is bought thin
  EXPECT_TRUE(exporting::isSmall(299, 4, false));
}

TEST(Caution, GuardsRivingKnifeAndPushStickComeWithEveryPiece) {
  const std::string safety = safetyOf(frameModel());
  for (const char* word : {"guards", "riving knife", "push stick", "manuals"}) {
    EXPECT_THAT(safety, HasSubstr(word));
  }
}

TEST(Caution, EveryWarningHasASource) {
  for (const auto& one : exporting::cautions()) {
    EXPECT_FALSE(one.source.empty()) << one.text;
    EXPECT_EQ(&exporting::caution(one.hazard), &one);
  }
}

TEST(Caution, EveryWarningDefersToCodesOrMakers) {
  for (const auto& one : exporting::cautions()) {
    EXPECT_THAT(std::string(one.text), HasSubstr("first."));
  }
}

}  // namespace
}  // namespace dryfit

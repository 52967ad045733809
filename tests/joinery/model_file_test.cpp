#include "joinery/model_file.h"

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "tests/joinery/model_samples.h"

namespace dryfit::joinery {
namespace {

namespace fs = std::filesystem;

std::string contentOf(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

/// A folder of its own for one test, gone with it.
class ModelFolder : public ::testing::Test {
 protected:
  void SetUp() override {
    std::string name = (fs::temp_directory_path() / "dryfit-test-XXXXXX").string();
    ASSERT_NE(::mkdtemp(name.data()), nullptr);
    folder = name;
  }
  void TearDown() override { fs::remove_all(folder); }
  [[nodiscard]] std::size_t files() const {
    return static_cast<std::size_t>(
        std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
  }
  fs::path folder;
};

TEST(ModelFile, HoldsWhatItsAuthorWrote) {
  const Model model = fileFrom(doorText()).model();
  EXPECT_EQ(model.name, "Demo door");
  EXPECT_EQ(model.unit, Unit::mm);
  ASSERT_EQ(model.parts.size(), 5U);
  EXPECT_EQ(model.parts[0].label, "Left stile");
  EXPECT_EQ(model.parts[0].batch, "october");
  EXPECT_EQ(model.parts[0].faceEdge, Face::right);
  EXPECT_EQ(model.parts[4].grain, Grain::none);
  EXPECT_EQ(model.parts[2].length.from, (Expression{"left_stile.right", false}));
  EXPECT_EQ(model.dimensions[1].note, "equal faces all round");
  EXPECT_EQ(model.dimensions[0].value, (Expression{"400", true}));
  ASSERT_EQ(model.joints.size(), 3U);
  EXPECT_EQ(model.joints[0].mates[1].role, "mortise");
  EXPECT_EQ(model.joints[2].mates[1].parts.size(), 4U);
  EXPECT_EQ(model.measurements.size(), 3U);
  EXPECT_EQ(model.brief.approved, std::vector<std::string>{"depth"});
}

TEST(ModelFile, KeepsTextThatIsLaidOutAsItWrites) {
  EXPECT_EQ(fileFrom(doorText()).text(), doorText());
}

TEST(ModelFile, KeepsNumbersAsWritten) {
  const std::string text = replaced(doorText(), "\"door_width\": 400", "\"door_width\": 400.50");
  EXPECT_EQ(fileFrom(text).text(), text);
}

TEST(ModelFile, ReadsItsOwnTextAsTheSameModel) {
  for (unsigned seed = 1; seed <= 300; ++seed) {
    SCOPED_TRACE(seed);
    const ModelFile first = fileFrom(RandomModel(seed).text());
    const ModelFile second = fileFrom(first.text());
    ASSERT_EQ(first.text(), second.text());
    const auto a = placeParts(first.model(), Basis::measured);
    const auto b = placeParts(second.model(), Basis::measured);
    ASSERT_EQ(a.has_value(), b.has_value());
    if (a) {
      ASSERT_EQ(a->values, b->values);
    } else {
      ASSERT_EQ(a.error().line(), b.error().line());
    }
  }
}

TEST(ModelFile, KeepsLinesWithinAHundredColumns) {
  for (unsigned seed = 1; seed <= 50; ++seed) {
    std::istringstream text(fileFrom(RandomModel(seed).text()).text());
    for (std::string line; std::getline(text, line);) EXPECT_LE(line.size(), 100U) << line;
  }
}

/// One thing wrong with the door, and what the line about it must say.
struct Slip {
  const char* from;
  const char* to;
  const char* place;
  const char* says;
};

class ModelFileSlip : public ::testing::TestWithParam<Slip> {};

TEST_P(ModelFileSlip, GetsOneLineWithItsPlace) {
  const Slip& slip = GetParam();
  const auto file = ModelFile::parse(replaced(doorText(), slip.from, slip.to), "door.dryfit");
  ASSERT_FALSE(file) << slip.to;
  const std::string line = file.error().line();
  EXPECT_EQ(line.find('\n'), std::string::npos) << line;
  EXPECT_EQ(file.error().where, std::string("door.dryfit") + (*slip.place ? ": " : "") + slip.place)
      << line;
  EXPECT_NE(line.find(slip.says), std::string::npos) << line;
}

INSTANTIATE_TEST_SUITE_P(
    Every, ModelFileSlip,
    ::testing::Values(
        Slip{"dryfit-model", "other", "format", "'dryfit-model'"},
        Slip{"\"version\": 1", "\"version\": 2", "version", "version 1"},
        Slip{"\"version\": 1", "\"version\": \"1\"", "version", "version 1"},
        Slip{"\"name\": \"Demo door\",", "", "", "'name' is missing"},
        Slip{"\"name\": \"Demo door\"", "\"name\": 3", "name", "text in quotes"},
        Slip{"Demo door", "Demo\\ndoor", "name", "control character"},
        Slip{"\"Left stile\"", "\"\\u001b[31mred\"", "parts.left_stile.label", "control character"},
        Slip{"\"unit\": \"mm\"", "\"unit\": \"ft\"", "unit", "mm, cm, in"},
        Slip{"\"unit\"", "\"untis\"", "untis", "'unit'"},
        Slip{"\"unit\": \"mm\",", "\"unit\": \"mm\", \"unit\": \"in\",", "unit", "twice"},
        Slip{"\"materials\": {\n", "\"materials\": {}, \"xx\": {\n", "xx", "unknown key"},
        Slip{"\"approved\": [\"depth\"]", "\"approved\": [\"deep\"]", "brief.approved[0]", "depth"},
        Slip{"\"approved\": [\"depth\"]", "\"approved\": \"depth\"", "brief.approved", "list"},
        Slip{"\"tolerance\": 2", "\"tolerance\": true", "brief.tolerance", "number"},
        Slip{"\"door_width\": 400", "\"door_width\": null", "dimensions.door_width", "not null"},
        Slip{"\"door_width\": 400", "\"door_width\": \"4 +\"", "dimensions.door_width",
             "breaks off"},
        Slip{"\"door_width\": 400", "\"door_width\": {\"value\": 4, \"note\": 5}",
             "dimensions.door_width.note", "text"},
        Slip{"\"door_width\"", "\"Door\"", "dimensions.Door", "small letters"},
        Slip{"\"door_width\"", "\"2nd\"", "dimensions.2nd", "small letters"},
        Slip{"\"door_width\"", "\"min\"", "dimensions.min", "another name"},
        Slip{"\"door_width\"", "\"in\"", "dimensions.in", "another name"},
        Slip{"\"door_width\": 400", "\"oak\": 400", "materials.oak", "taken by a dimension"},
        Slip{"\"panel\": {\n", "\"ply\": {\n", "parts.ply", "taken by a material"},
        Slip{"\"kind\": \"solid\"", "\"kind\": \"solld\"", "materials.oak.kind", "solid, sheet"},
        Slip{"white oak", "whit oak", "materials.oak.species", "'white oak'"},
        Slip{"\"about\": \"z\"", "\"about\": \"w\"", "groups.door.turn.about", "x, y, z"},
        Slip{"[0, \"oak.thickness\", 0]", "[0, 0]", "groups.door.turn.at", "[x, y, z]"},
        Slip{"[0, \"oak.thickness\", 0]", "[0, [], 0]", "groups.door.turn.at[1]", "a list"},
        Slip{", \"angle\": 0", "", "groups.door.turn", "'angle' is missing"},
        Slip{"\"material\": \"oak\"", "\"material\": \"oka\"", "parts.left_stile.material",
             "'oak'"},
        Slip{"\"group\": \"door\"", "\"group\": \"dor\"", "parts.left_stile.group", "'door'"},
        Slip{"\"batch\": \"october\"", "\"batch\": \"October 3\"", "parts.left_stile.batch",
             "small letters"},
        Slip{"\"width\": {\"along\": \"x\", \"from\": 0",
             "\"widht\": {\"along\": \"x\", \"from\": 0", "parts.left_stile.widht", "'width'"},
        Slip{"\"along\": \"z\"", "\"alnog\": \"z\"", "parts.left_stile.length.alnog", "'along'"},
        Slip{"\"along\": \"z\", ", "", "parts.left_stile.length", "'along' is missing"},
        Slip{"\"size\": 600", "\"size\": \"6 7\"", "parts.left_stile.length.size", "operator"},
        Slip{"\"face_side\": \"front\"", "\"face_side\": \"fron\"", "parts.left_stile.face_side",
             "front"},
        Slip{"\"grain\": \"none\"", "\"grain\": 7", "parts.panel.grain", "length, width, none"},
        Slip{"{\"kind\": \"blind-mortise-tenon\", ", "{", "joints.top_left", "'kind' is missing"},
        Slip{"blind-mortise-tenon", "blind-mortice-tenon", "joints.top_left.kind",
             "'blind-mortise-tenon'"},
        Slip{"\"mortise\": \"left_stile\"", "\"mortise\": \"left_style\"",
             "joints.top_left.mortise", "'left_stile'"},
        Slip{", \"mortise\": \"left_stile\"", "", "joints.top_left", "'mortise' is missing"},
        Slip{"\"mortise\": \"left_stile\"", "\"mortise\": [\"left_stile\"]",
             "joints.top_left.mortise", "not a list"},
        Slip{"\"mortise\": \"left_stile\"", "\"mortise\": \"top_rail\"", "joints.top_left",
             "itself"},
        Slip{"\"mortise\": \"left_stile\"", "\"mortise\": \"left_stile\", \"tenon_lenght\": 5",
             "joints.top_left.tenon_lenght", "'tenon_length'"},
        Slip{"\"mortise\": \"left_stile\"", "\"mortise\": \"left_stile\", \"tenon_length\": []",
             "joints.top_left.tenon_length", "number"},
        Slip{"\"frame\": [\"left_stile\",", "\"frame\": [\"left_stile\", \"lid\",",
             "joints.field.frame[1]", "no part 'lid'"},
        Slip{"\"frame\": [\"left_stile\", \"right_stile\", \"top_rail\", \"bottom_rail\"]",
             "\"frame\": []", "joints.field.frame", "empty"},
        Slip{"\"parts\": {\"left_stile\"", "\"parts\": {\"left_stil\"", "measured.parts.left_stil",
             "'left_stile'"},
        Slip{"{\"width\": 55.4}", "{\"height\": 55.4}", "measured.parts.left_stile.height",
             "known here"},
        Slip{"{\"width\": 55.4}", "{\"width\": -1}", "measured.parts.left_stile.width",
             "the size is -1 mm"},
        Slip{"{\"width\": 55.4}", "{\"width\": \"stile_width\"}", "measured.parts.left_stile.width",
             "reads no names"},
        Slip{"{\"october\"", "{\"octobre\"", "measured.batches.octobre", "'october'"},
        Slip{"{\"thickness\": 21.2}", "{\"width\": 21.2}", "measured.materials.oak.width",
             "thickness"},
        Slip{"\"door_width\": 400,", "\"door_width\": 400", "line 9, column 17", "comma"},
        Slip{"\"door_width\": 400", "\"door_width\": 4e999", "line 8, column 23", "too large"},
        Slip{"\"angle\": 0", "\"angle\": [[[[[[[[[[[[[[[[[[0]]]]]]]]]]]]]]]]]]",
             "groups.door.turn.angle", "nested"}));

TEST(ModelFile, SaysWhatIsNoModelAtAll) {
  for (const char* text : {"", " ", "[]", "null", "3", "\"text\"", "{", "{}", "\xff\xfe",
                           "{\"a\":1}x", "{\"name\": \"\xc3\"}"}) {
    const auto file = ModelFile::parse(text, "x.dryfit");
    ASSERT_FALSE(file) << text;
    EXPECT_EQ(file.error().code, ErrorCode::badModel) << text;
    EXPECT_EQ(file.error().line().find("x.dryfit"), 0U) << text;
    EXPECT_EQ(file.error().line().find('\n'), std::string::npos) << text;
  }
  const auto large = ModelFile::parse(std::string(20'000'001, ' '), "x.dryfit");
  ASSERT_FALSE(large);
  EXPECT_NE(large.error().line().find("20 MB"), std::string::npos);
}

TEST(ModelFile, NeverCrashesOnMutatedBytes) {
  const unsigned seed = 4711;
  SCOPED_TRACE(seed);
  std::mt19937 random(seed);
  const std::string good = doorText();
  int models = 0;
  for (int i = 0; i < 4000; ++i) {
    std::string text = good;
    const int changes = 1 + static_cast<int>(random() % 4);
    for (int k = 0; k < changes; ++k) {
      const std::size_t at = random() % text.size();
      switch (random() % 4) {
        case 0:
          text[at] = static_cast<char>(random() % 256);
          break;
        case 1:
          text.erase(at, 1 + random() % 12);
          break;
        case 2:
          text.insert(at, good, random() % good.size(), random() % 30);
          break;
        default:
          text[at] = "0123456789{}[]\",:.-+*/^ abc"[random() % 27];
      }
    }
    const auto file = ModelFile::parse(text, "m");
    if (!file) {
      ASSERT_EQ(file.error().line().find('\n'), std::string::npos) << file.error().line();
      ASSERT_EQ(file.error().line().find("m: "), 0U) << file.error().line();
      continue;
    }
    ++models;
    ASSERT_EQ(fileFrom(file->text()).text(), file->text());
    for (const Basis basis : {Basis::drawn, Basis::measured}) {
      const auto piece = placeParts(file->model(), basis);
      if (!piece) {
        ASSERT_EQ(piece.error().line().find('\n'), std::string::npos);
        ASSERT_FALSE(piece.error().where.empty()) << piece.error().line();
      }
    }
  }
  EXPECT_GT(models, 50);  // both outcomes were tried
}

/// The lines that differ between two texts of equally many lines.
std::vector<std::string> changedLines(const std::string& before, const std::string& after) {
  std::istringstream a(before), b(after);
  std::vector<std::string> changed;
  std::string x, y;
  while (std::getline(a, x) && std::getline(b, y)) {
    if (x != y) changed.push_back(y);
  }
  EXPECT_EQ(std::count(before.begin(), before.end(), '\n'),
            std::count(after.begin(), after.end(), '\n'));
  return changed;
}

TEST(ModelEdit, ChangesNothingButItsOwnLine) {
  ModelFile file = fileFrom(doorText());
  ASSERT_TRUE(file.setDimension("door_width", "412.5"));
  EXPECT_EQ(changedLines(doorText(), file.text()),
            std::vector<std::string>{"    \"door_width\": 412.5,"});
  EXPECT_EQ(file.model().dimensions[0].value, (Expression{"412.5", true}));
}

TEST(ModelEdit, KeepsTheNoteOfADimension) {
  ModelFile file = fileFrom(doorText());
  ASSERT_TRUE(file.setDimension("stile_width", " 2 1/4 in "));
  EXPECT_EQ(changedLines(doorText(), file.text()),
            std::vector<std::string>{"    \"stile_width\": {\"value\": \"2 1/4 in\", \"note\": "
                                     "\"equal faces all round\"},"});
}

TEST(ModelEdit, IsAllOrNothing) {
  ModelFile file = fileFrom(doorText());
  const auto refused = [&](const Result<void>& result, ErrorCode code, const std::string& says) {
    ASSERT_FALSE(result);
    EXPECT_EQ(result.error().code, code) << result.error().line();
    EXPECT_NE(result.error().line().find(says), std::string::npos) << result.error().line();
    EXPECT_EQ(result.error().line().find('\n'), std::string::npos);
    EXPECT_EQ(file.text(), doorText());
  };
  using Scope = Measurement::Scope;
  const auto measure = [&](Scope scope, const std::string& name, SizeName size,
                           const std::string& value) {
    return file.setMeasurement({scope, name, size, {value, false}});
  };
  refused(file.setDimension("dor_width", "3"), ErrorCode::unknownName, "'door_width'");
  refused(file.setDimension("door_width", "3 +"), ErrorCode::badExpression,
          "dimensions.door_width");
  refused(file.setDimension("door_width", ""), ErrorCode::badExpression, "empty");
  refused(file.setDimension("door_width", "\xff\n"), ErrorCode::badExpression, "no meaning");
  refused(measure(Scope::part, "left_style", SizeName::width, "3"), ErrorCode::unknownName,
          "'left_stile'");
  refused(measure(Scope::batch, "may", SizeName::thickness, "3"), ErrorCode::unknownName,
          "october");
  refused(measure(Scope::material, "elm", SizeName::thickness, "3"), ErrorCode::unknownName, "oak");
  refused(measure(Scope::material, "oak", SizeName::width, "3"), ErrorCode::badMeasurement,
          "only the thickness");
  for (const char* value : {"-3", "0", "wide", "3 + ", "200000", "1/0", "door_width"}) {
    refused(measure(Scope::part, "left_stile", SizeName::width, value), ErrorCode::badMeasurement,
            "measured.parts.left_stile.width");
  }
  refused(file.setJointParameter("top_lft", "fit", "0.1"), ErrorCode::unknownName, "'top_left'");
  refused(file.setJointParameter("top_left", "fitt", "0.1"), ErrorCode::unknownName, "'fit'");
  refused(file.setJointParameter("top_left", "fit", "0.1 0.2"), ErrorCode::badExpression,
          "joints.top_left.fit");
  refused(file.setJointParameter("top_left", "face", "upward"), ErrorCode::badModel, "left");
}

TEST(ModelEdit, RecordsAndForgetsMeasurements) {
  ModelFile file = fileFrom(doorText());
  const Measurement width{Measurement::Scope::part, "panel", SizeName::width, {"280.5", false}};
  ASSERT_TRUE(file.setMeasurement(width));
  EXPECT_NE(file.text().find("\"panel\": {\"width\": 280.5}"), std::string::npos) << file.text();
  EXPECT_EQ(file.model().measurements.size(), 4U);
  Measurement none = width;
  none.value.text = "";
  ASSERT_TRUE(file.setMeasurement(none));
  EXPECT_EQ(file.text(), doorText());
  ASSERT_TRUE(file.setMeasurement(none));  // taking away what is not there
  EXPECT_EQ(file.text(), doorText());
}

TEST(ModelEdit, LeavesNoEmptyRecordsBehind) {
  const std::string plain = fileFrom(RandomModel(5).text()).text();
  const std::string bare = replaced(plain, plain.substr(plain.find(",\n  \"measured\"")), "\n}\n");
  ModelFile file = fileFrom(bare);
  ASSERT_EQ(file.text(), bare);
  ASSERT_TRUE(file.setMeasurement({Measurement::Scope::part, "p0", SizeName::width, {"5", true}}));
  EXPECT_NE(file.text(), bare);
  ASSERT_TRUE(file.setMeasurement({Measurement::Scope::part, "p0", SizeName::width, {}}));
  EXPECT_EQ(file.text(), bare);
}

TEST(ModelEdit, SetsAndReturnsJointParameters) {
  ModelFile file = fileFrom(doorText());
  ASSERT_TRUE(file.setJointParameter("top_left", "tenon_length", "left_stile.width / 2"));
  ASSERT_TRUE(file.setJointParameter("top_left", "fit", "0.1"));
  ASSERT_EQ(file.model().joints[0].parameters.size(), 2U);
  EXPECT_EQ(file.model().joints[0].parameters[1].second, (Expression{"0.1", true}));
  ASSERT_TRUE(file.setJointParameter("top_left", "tenon_length", ""));
  ASSERT_TRUE(file.setJointParameter("top_left", "fit", " "));
  EXPECT_EQ(file.text(), doorText());
}

TEST(ModelEdit, OfACopyLeavesTheOriginal) {
  const ModelFile file = fileFrom(doorText());
  ModelFile copy = file;
  ASSERT_TRUE(copy.setDimension("door_width", "1"));
  EXPECT_EQ(file.text(), doorText());
  EXPECT_NE(copy.text(), doorText());
}

TEST_F(ModelFolder, SavedFileReadsAsTheSameText) {
  const ModelFile file = fileFrom(doorText());
  ASSERT_TRUE(file.save(folder / "door.dryfit"));
  EXPECT_EQ(contentOf(folder / "door.dryfit"), doorText());
  const auto loaded = ModelFile::load(folder / "door.dryfit");
  ASSERT_TRUE(loaded) << loaded.error().line();
  EXPECT_EQ(loaded->text(), doorText());
  EXPECT_EQ(files(), 1U);
}

TEST_F(ModelFolder, SaveKeepsLinksAndPermissions) {
  std::ofstream(folder / "real.dryfit") << "old";
  fs::permissions(folder / "real.dryfit", fs::perms::owner_read | fs::perms::owner_write);
  fs::create_symlink("real.dryfit", folder / "link.dryfit");
  ASSERT_TRUE(fileFrom(doorText()).save(folder / "link.dryfit"));
  EXPECT_TRUE(fs::is_symlink(folder / "link.dryfit"));
  EXPECT_EQ(contentOf(folder / "real.dryfit"), doorText());
  EXPECT_EQ(fs::status(folder / "real.dryfit").permissions(),
            fs::perms::owner_read | fs::perms::owner_write);
  EXPECT_EQ(files(), 2U);
}

TEST_F(ModelFolder, FailedSaveLeavesTheOldFileAndNothingElse) {
  // A folder cannot be replaced by a file, whoever asks.
  fs::create_directories(folder / "door.dryfit" / "inside");
  const Result<void> saved = fileFrom(doorText()).save(folder / "door.dryfit");
  ASSERT_FALSE(saved);
  EXPECT_EQ(saved.error().code, ErrorCode::fileNotWritten);
  EXPECT_TRUE(fs::is_directory(folder / "door.dryfit" / "inside"));
  EXPECT_EQ(files(), 1U);
  const Result<void> nowhere = fileFrom(doorText()).save(folder / "missing" / "door.dryfit");
  ASSERT_FALSE(nowhere);
  EXPECT_EQ(nowhere.error().code, ErrorCode::fileNotWritten);
  EXPECT_EQ(nowhere.error().where, (folder / "missing" / "door.dryfit").string());
}

TEST_F(ModelFolder, FileThatCannotBeReadIsNamed) {
  for (const fs::path& path : {folder / "none.dryfit", folder}) {
    const auto file = ModelFile::load(path);
    ASSERT_FALSE(file);
    EXPECT_EQ(file.error().code, ErrorCode::fileNotRead);
    EXPECT_EQ(file.error().where, path.string());
  }
  std::ofstream(folder / "empty.dryfit");
  ASSERT_FALSE(ModelFile::load(folder / "empty.dryfit"));
  EXPECT_EQ(ModelFile::load(folder / "empty.dryfit").error().code, ErrorCode::badModel);
  fs::resize_file(folder / "empty.dryfit", 20'000'001);
  EXPECT_EQ(ModelFile::load(folder / "empty.dryfit").error().code, ErrorCode::fileNotRead);
}

}  // namespace
}  // namespace dryfit::joinery

#include "joinery/file/model_file.h"

#include "joinery/piece/place_parts.h"

#include <gtest/gtest.h>

#include <random>
#include <sstream>

#include "tests/joinery/model_samples.h"
#include "tests/support/repetitions.h"

namespace dryfit::joinery {
namespace {

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
  EXPECT_EQ(model.dimensions[1].note, "wide enough for a lock");
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
             "stops short"},
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
        Slip{"\"mortise\": \"left_stile\"", "\"mortise\": []", "joints.top_left.mortise",
             "not a list"},
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
        Slip{"{\"width\": 60.8}", "{\"height\": 60.8}", "measured.parts.left_stile.height",
             "known here"},
        Slip{"{\"width\": 60.8}", "{\"width\": -1}", "measured.parts.left_stile.width",
             "the size is -1 mm"},
        Slip{"{\"width\": 60.8}", "{\"width\": \"stile_width\"}", "measured.parts.left_stile.width",
             "cannot use names"},
        Slip{"{\"october\"", "{\"octobre\"", "measured.batches.octobre", "'october'"},
        Slip{"{\"thickness\": 22.3}", "{\"width\": 22.3}", "measured.materials.oak.width",
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
  for (int i = 0; i < test::repetitions(4000); ++i) {
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
  EXPECT_GT(models, test::repetitions(50));  // both outcomes were tried
}

}  // namespace
}  // namespace dryfit::joinery

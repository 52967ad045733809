// What is repeated or depends on a condition is the piece that one would write out part by part.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <random>

#include "joinery/file/model_file.h"
#include "joinery/fit/dry_fit.h"
#include "joinery/formula/condition.h"
#include "joinery/joints/evaluate.h"
#include "tests/support/joint_bench.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::test {
namespace {

using joinery::ModelFile;
using nlohmann::ordered_json;
using ::testing::HasSubstr;

/// A bookcase: sides, top, bottom, and `shelves` shelves spread between bottom and top, each housed
/// in both sides; a back rail where `rail` is 1.
ordered_json bookcase(int shelves, int rail) {
  ModelText text;
  text.part("left", {"z", 0, 1200}, {"y", 0, 250}, {"x", 0, 20})
      .part("right", {"z", 0, 1200}, {"y", 0, 250}, {"x", 780, 20})
      .part("bottom", {"x", 20, 760}, {"y", 0, 250}, {"z", 80, 20})
      .part("top", {"x", 20, 760}, {"y", 0, 250}, {"z", 1180, 20})
      .part("shelf", {"x", 20, 760}, {"y", 0, 250}, {"z", 0, 20})
      .part("rail", {"x", 20, 760}, {"z", 1080, 100}, {"y", 230, 20})
      .joint("left_housing", {{"kind", "through-housing"}, {"shelf", "shelf"}, {"side", "left"}})
      .joint("right_housing", {{"kind", "through-housing"}, {"shelf", "shelf"}, {"side", "right"}})
      .joint("rail_glue", {{"kind", "butt"}, {"first", "rail"}, {"second", "left"}});
  ordered_json json = text.json();
  json["dimensions"] = {{"shelves", {{"value", shelves}, {"quantity", "number"}}},
                        {"with_rail", {{"value", rail}, {"quantity", "number"}}}};
  json["parts"]["shelf"]["repeat"] = {
      {"count", "shelves"},
      {"spread", {{"along", "z"}, {"from", "bottom.top"}, {"to", "top.bottom"}}}};
  json["parts"]["shelf"]["thickness"].erase("from");
  json["parts"]["rail"]["when"] = "with_rail = 1";
  json["hardware"]["cleat"] = {{"count", "2 * shelves"}, {"holds", {"bottom", "top", "shelf"}}};
  return json;
}

/// The same written out by hand.
ordered_json writtenOut(int shelves, int rail) {
  ordered_json json = bookcase(shelves, rail);
  ordered_json shelf = json["parts"]["shelf"];
  shelf.erase("repeat");
  json["parts"].erase("shelf");
  const double clear = 1180.0 - 100 - 20.0 * shelves;
  json["hardware"]["cleat"]["holds"] = {"bottom", "top"};
  ordered_json joints = ordered_json::object();
  for (int i = 1; i <= shelves; ++i) {
    const std::string name = "shelf_" + std::to_string(i);
    shelf["thickness"]["from"] = 100 + clear * i / (shelves + 1) + 20.0 * (i - 1);
    json["parts"][name] = shelf;
    json["hardware"]["cleat"]["holds"].push_back(name);
  }
  for (const std::string side : {"left", "right"}) {
    for (int i = 1; i <= shelves; ++i) {
      joints[side + "_housing_" + std::to_string(i)] = {
          {"kind", "through-housing"}, {"shelf", "shelf_" + std::to_string(i)}, {"side", side}};
    }
  }
  if (rail == 1) joints["rail_glue"] = json["joints"]["rail_glue"];
  json["joints"] = joints;
  if (rail == 1) json["parts"]["rail"].erase("when");
  if (rail != 1) json["parts"].erase("rail");
  if (shelves == 0) json.erase("hardware");
  if (shelves > 0) json["hardware"]["cleat"]["count"] = 2 * shelves;
  return json;
}

joinery::Piece pieceIn(const ordered_json& json) {
  const auto file = ModelFile::parse(json.dump(), "bookcase");
  if (!file) {
    ADD_FAILURE() << file.error().line();
    return {};
  }
  auto piece = joinery::evaluate(file->model(), joinery::Basis::drawn);
  if (piece) return std::move(*piece);
  ADD_FAILURE() << piece.error().line();
  return {};
}

std::string errorIn(const ordered_json& json) {
  const auto file = ModelFile::parse(json.dump(), "bookcase");
  if (!file) return file.error().line();
  ADD_FAILURE() << "read without complaint";
  return {};
}

/// All that is known of a piece's parts and joints, by their names.
void expectAlike(const joinery::Piece& a, const joinery::Piece& b) {
  ASSERT_EQ(a.parts.size(), b.parts.size());
  ASSERT_EQ(a.joints.size(), b.joints.size());
  for (const joinery::PlacedPart& part : a.parts) {
    const std::string& name = a.part(part.id).name;
    const joinery::PlacedPart& other = partNamed(b, name);
    for (int axis = 0; axis < 3; ++axis) {
      EXPECT_NEAR(part.span.min[axis], other.span.min[axis], 1e-9) << name;
      EXPECT_NEAR(part.span.max[axis], other.span.max[axis], 1e-9) << name;
    }
    ASSERT_EQ(part.features.size(), other.features.size()) << name;
    for (std::size_t i = 0; i < part.features.size(); ++i) {
      EXPECT_EQ(part.features[i].purpose, other.features[i].purpose) << name;
      EXPECT_EQ(a.joint(part.features[i].joint).name, b.joint(other.features[i].joint).name);
      EXPECT_NEAR(part.features[i].extent.min.x, other.features[i].extent.min.x, 1e-9) << name;
      EXPECT_NEAR(part.features[i].extent.max.x, other.features[i].extent.max.x, 1e-9) << name;
    }
  }
}

TEST(Unfolding, GivesThePieceThatOneWouldWriteOut) {
  for (int shelves = 0; shelves <= 6; ++shelves) {
    for (const int rail : {0, 1}) {
      SCOPED_TRACE(testing::Message() << shelves << " shelves, rail " << rail);
      expectAlike(pieceIn(bookcase(shelves, rail)), pieceIn(writtenOut(shelves, rail)));
    }
  }
}

TEST(Unfolding, SpreadsCopiesEvenly) {
  std::mt19937_64 random(seed());
  std::uniform_int_distribution<int> count(1, 40);
  std::uniform_real_distribution<double> size(1, 12), place(-300, 300);
  for (int i = 0; i < repetitions(50); ++i) {
    const int n = count(random);
    const double from = place(random), thick = size(random), to = from + n * thick + 200;
    ModelText text;
    text.part("slat", {"x", 0, 300}, {"y", 0, 60}, {"z", 0, thick});
    ordered_json json = text.json();
    json["parts"]["slat"]["thickness"] = {{"along", "z"}, {"size", thick}};
    json["parts"]["slat"]["repeat"] = {{"count", n},
                                       {"spread", {{"along", "z"}, {"from", from}, {"to", to}}}};
    const joinery::Piece piece = pieceIn(json);
    ASSERT_EQ(piece.parts.size(), static_cast<std::size_t>(n));
    const double gap = (to - from - n * thick) / (n + 1);
    double at = from;
    for (const joinery::PlacedPart& part : piece.parts) {
      EXPECT_NEAR(part.span.min.z - at, gap, 1e-6);
      EXPECT_NEAR(part.span.max.z - part.span.min.z, thick, 1e-9);
      at = part.span.max.z;
    }
    EXPECT_NEAR(to - at, gap, 1e-6);
  }
}

TEST(Unfolding, NumbersItsCopiesInExpressions) {
  ModelText text;
  text.part("step", {"x", 0, 300}, {"y", 0, 60}, {"z", 0, 20});
  ordered_json json = text.json();
  json["parts"]["step"]["repeat"] = 3;
  json["parts"]["step"]["label"] = "Step";
  json["parts"]["step"]["length"]["size"] = "300 - 40 * (copies - copy)";
  json["parts"]["step"]["thickness"]["from"] = "100 * copy";
  const joinery::Piece piece = pieceIn(json);
  ASSERT_EQ(piece.parts.size(), 3U);
  EXPECT_EQ(piece.label(piece.parts[1].id), "Step 2");
  EXPECT_EQ(piece.part(piece.parts[2].id).name, "step_3");
  EXPECT_NEAR(piece.parts[0].size.x, 220, 1e-9);
  EXPECT_NEAR(piece.parts[2].size.x, 300, 1e-9);
  EXPECT_NEAR(piece.parts[2].span.min.z, 300, 1e-9);
}

TEST(Unfolding, PutsAllCopiesIntoARoleOfMany) {
  ModelText text;
  text.part("stile", {"z", 0, 900}, {"x", 0, 60}, {"y", 0, 24})
      .part("panel", {"z", 0, 900}, {"x", 60, 300}, {"y", 9, 6})
      .joint("groove", {{"kind", "panel-groove"}, {"panel", "panel"}, {"frame", {"stile"}}});
  ordered_json json = text.json();
  json["parts"]["stile"]["repeat"] = 2;
  json["parts"]["stile"]["width"]["from"] = "360 * (copy - 1)";
  const joinery::Piece piece = pieceIn(json);
  ASSERT_EQ(piece.joints.size(), 1U);
  EXPECT_EQ(piece.joints.front().mates.size(), 3U);
}

// One butt for ten slats.
TEST(Unfolding, TakesAListWhereAJointNeedsOnePart) {
  ModelText text;
  text.part("rail", {"x", 0, 900}, {"z", 0, 60}, {"y", 0, 24});
  ordered_json slats = ordered_json::array();
  for (int i = 0; i < 10; ++i) {
    slats.push_back("slat" + std::string(1, static_cast<char>('a' + i)));
    text.part(slats.back(), {"y", -200, 500}, {"x", 85 * i, 70}, {"z", 60, 18});
  }
  text.joint("glue", {{"kind", "butt"}, {"first", slats}, {"second", "rail"}});
  const auto file = ModelFile::parse(text.json().dump(), "slats");
  ASSERT_TRUE(file) << file.error().line();
  EXPECT_EQ(ordered_json::parse(file->text()), text.json());
  ASSERT_EQ(file->model().joints.size(), 10U);
  EXPECT_EQ(file->model().joints[3].name, "glue_4");
  EXPECT_EQ(file->model().joints[3].mates[0].parts, std::vector<std::string>{"slatd"});
  ordered_json wrong = text.json();
  wrong["joints"]["glue"]["first"][2] = "slatx";
  EXPECT_THAT(errorIn(wrong), HasSubstr("joints.glue.first (copy 3): there is no part 'slatx'"));
}

TEST(Unfolding, KeepsWhatItsAuthorWrote) {
  ordered_json json = bookcase(3, 1);
  json["measured"]["parts"]["shelf_2"] = {{"width", 248}};
  json["measured"]["parts"]["shelf_5"] = {{"width", 247}};
  auto file = ModelFile::parse(json.dump(), "bookcase");
  ASSERT_TRUE(file) << file.error().line();
  EXPECT_EQ(ordered_json::parse(file->text()), json);
  ASSERT_EQ(file->model().measurements.size(), 1U) << "of the fifth shelf nothing is known now";
  ASSERT_TRUE(file->setDimension("shelves", "6"));
  EXPECT_EQ(file->model().measurements.size(), 2U) << "it is there again";
  EXPECT_EQ(file->model().parts.size(), 11U);
  ASSERT_TRUE(file->setMeasurement(
      {joinery::Measurement::Scope::part, "shelf_6", joinery::SizeName::width, {"249", true}}));
  EXPECT_EQ(ordered_json::parse(file->text())["measured"]["parts"]["shelf_6"]["width"], 249);
  ASSERT_TRUE(file->setJointParameter("left_housing_4", "depth", "7"));
  EXPECT_EQ(ordered_json::parse(file->text())["joints"]["left_housing"]["depth"], 7);
  const auto again = ModelFile::parse(file->text(), "saved");
  ASSERT_TRUE(again);
  EXPECT_EQ(again->text(), file->text());
}

TEST(Unfolding, CountsPlainNumbersInAnyUnit) {
  for (const char* unit : {"mm", "cm", "in"}) {
    ModelText text;
    text.part("step", {"x", 0, 12}, {"y", 0, 3}, {"z", 0, 1});
    ordered_json json = text.json();
    json["unit"] = unit;
    json["materials"]["wood"]["thickness"] = 1;
    json["dimensions"] = {{"wide", 36}, {"steps", {{"value", 3}, {"quantity", "number"}}}};
    json["parts"]["step"]["thickness"]["from"] = "2 * copy";
    json["parts"]["step"]["repeat"] = "steps + round(wide / 12)";
    json["parts"]["step"]["when"] = "steps = 3 and wide > 35 and wood.thickness <= 1";
    EXPECT_EQ(pieceIn(json).parts.size(), 6U) << unit;
  }
}

TEST(Unfolding, TellsInOneLineWhatIsWrong) {
  const auto with = [](const char* pointer, const ordered_json& value) {
    ordered_json json = bookcase(3, 1);
    json[ordered_json::json_pointer(pointer)] = value;
    return errorIn(json);
  };
  EXPECT_THAT(
      with("/dimensions/shelves/value", -1),
      HasSubstr("parts.shelf.repeat.count: the count is -1; a whole number from 0 to 1000"));
  EXPECT_THAT(with("/dimensions/shelves/value", 1e6), HasSubstr("the count is 1e+06"));
  EXPECT_THAT(with("/dimensions/shelves/value", 2.5), HasSubstr("the count is 2.5"));
  EXPECT_THAT(with("/dimensions/shelves/value", "shelves + 1"), HasSubstr("depends on itself"));
  EXPECT_THAT(with("/parts/shelf/repeat/count", "shelfs"),
              HasSubstr("there is no dimension 'shelfs'"));
  EXPECT_THAT(with("/parts/shelf/repeat/count", "left.width"),
              HasSubstr("not from where parts are"));
  EXPECT_THAT(with("/parts/rail/when", "with_rail"), HasSubstr("'with_rail' compares nothing"));
  EXPECT_THAT(with("/parts/rail/when", 1), HasSubstr("parts.rail.when: a condition in quotes"));
  EXPECT_THAT(with("/parts/shelf/thickness/from", 300), HasSubstr("is placed twice"));
  EXPECT_THAT(with("/parts/shelf/repeat/spread/along", "w"), HasSubstr("no size along 'w'"));
  EXPECT_THAT(with("/parts/shelf/repeat/often", 2), HasSubstr("unknown key 'often'"));
  EXPECT_THAT(with("/parts/shelf/grain", "up"),
              HasSubstr("parts.shelf.grain (copy 1): 'up' is not known here"));
  EXPECT_THAT(with("/parts/copy", bookcase(1, 1)["parts"]["left"]),
              HasSubstr("'copy' is kept for the number of a repeated part"));
}

TEST(Unfolding, JoinsCopiesOnlyToAsMany) {
  ordered_json json = bookcase(3, 1);
  json["parts"]["left"]["repeat"] = 2;
  EXPECT_THAT(errorIn(json), HasSubstr("'side' names 2 parts and 'shelf' names 3"));
}

TEST(Condition, ComparesWhatDimensionsAre) {
  const auto lookup = [](const std::string& name) -> std::optional<double> {
    if (name == "width") return 900;
    if (name == "doors") return 2;
    return std::nullopt;
  };
  const auto holds = [&](const std::string& text) {
    return joinery::evaluateCondition(text, joinery::Unit::mm, lookup);
  };
  for (const char* yes :
       {"doors > 0", "doors = 2", "doors != 3", "width >= 900", "width <= 90 cm", "not doors = 1",
        "doors = 1 or width = 900", "doors = 2 and width < 1000", "(doors = 2)",
        "doors = 1 and width = 1 or doors = 2", "doors = 2 and (width = 1 or width = 900)",
        "(doors + 1) * 2 = 6", "max(doors, 5) = 5", "not (doors = 1 or doors = 3)"}) {
    const auto answer = holds(yes);
    EXPECT_TRUE(answer && *answer) << yes;
  }
  for (const char* no : {"doors > 2", "width < 900", "not doors = 2", "doors = 1 and width = 900",
                         "doors = 2 and (width = 1 or width = 2)"}) {
    const auto answer = holds(no);
    EXPECT_TRUE(answer && !*answer) << no;
  }
  for (const char* wrong : {"", "doors", "doors >", "> 2", "doors = 1 and", "and", "not",
                            "doors = = 1", "colour = 1", "doors = 1 or colour = 2", "(doors = 1"}) {
    EXPECT_FALSE(holds(wrong)) << wrong;
  }
}

TEST(Repeated, TellsWhichMeasuredCopiesAreNotThere) {
  const auto notesOf = [](int shelves) {
    ordered_json json = bookcase(shelves, 1);
    json["measured"]["parts"]["shelf_2"] = {{"width", 248}};
    json["marks"]["shelf_3"] = {{"state", "rough"}};
    const auto file = ModelFile::parse(json.dump(), "bookcase");
    EXPECT_TRUE(file) << (file ? "" : file.error().line());
    std::vector<std::string> notes;
    if (!file) return notes;
    const auto fit = joinery::dryFit(file->model(), joinery::Basis::drawn);
    for (const joinery::Finding& f : fit->findings) {
      if (f.text.starts_with("Measured or marked")) notes.push_back(f.text);
    }
    return notes;
  };
  EXPECT_THAT(notesOf(3), ::testing::IsEmpty());
  EXPECT_THAT(notesOf(2), ::testing::ElementsAre(HasSubstr("not in the piece: shelf 3.")));
  EXPECT_THAT(notesOf(1), ::testing::ElementsAre(HasSubstr("not in the piece: shelf 2, shelf 3.")));
}

TEST(Repeated, MayHaveALabelForEachCopy) {
  ordered_json json = bookcase(2, 1);
  json["parts"]["shelf"]["label"] = {"lower shelf", "upper shelf"};
  const joinery::Piece piece = pieceIn(json);
  std::vector<std::string> labels;
  for (const joinery::Part& part : piece.model.parts) {
    if (!part.label.empty()) labels.push_back(part.label);
  }
  EXPECT_THAT(labels, ::testing::ElementsAre("lower shelf", "upper shelf"));
  json["dimensions"]["shelves"]["value"] = 1;
  json["parts"]["shelf"]["label"] = "shelf of oak";
  EXPECT_EQ(pieceIn(json).model.parts[4].label, "shelf of oak") << "one alone needs no number";
  json["dimensions"]["shelves"]["value"] = 2;
  json["parts"]["shelf"]["label"] = {"lower shelf"};
  EXPECT_THAT(errorIn(json), HasSubstr("parts.shelf.label: the list has 1 labels for 2 copies; "
                                       "give each copy one"));
}

}  // namespace
}  // namespace dryfit::test

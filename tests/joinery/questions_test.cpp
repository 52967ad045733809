// What a starter asks, and how its answers are taken.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "joinery/file/questions.h"
#include "joinery/joints/evaluate.h"
#include "tests/support/joint_bench.h"

namespace dryfit::test {
namespace {

using joinery::AskedQuestion;
using joinery::ModelFile;
using joinery::Unit;
using nlohmann::ordered_json;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

/// A row of slats: how wide, how many, with a rail behind or not, of which wood.
ordered_json slats() {
  ModelText text;
  text.part("slat", {"z", 0, 500}, {"x", 0, 40}, {"y", 0, 20})
      .part("rail", {"x", 0, 600}, {"z", 0, 60}, {"y", 20, 20});
  ordered_json json = text.json();
  json["note"] = "Slats on a rail";
  json["dimensions"] = ordered_json::parse(R"json({
    "width": {"value": 600, "ask": "How wide?", "least": 300, "greatest": 900, "why": "the rail sags"},
    "slats": {"value": 4, "quantity": "count", "ask": "How many slats?", "least": 2,
              "greatest": "floor(width / 60)", "why": "slats stand apart"},
    "rail": {"value": "with", "ask": "With a rail?", "options": {"with": 1, "without": 0}},
    "lean": {"value": 5, "quantity": "angle", "ask": "Lean?", "least": 0}
  })json");
  json["choices"]["kind"] = {
      {"ask", "Which wood?"}, {"value", "white oak"}, {"options", {"white oak", "hard maple"}}};
  json["materials"]["wood"]["species"] = {{"choice", "kind"}};
  json["parts"]["batten"] = json["parts"]["rail"];
  json["parts"].erase("rail");
  json["parts"]["batten"]["when"] = "rail = 1";
  json["parts"]["slat"]["repeat"] = "slats";
  json["parts"]["slat"]["width"]["from"] = "(copy - 1) * width / slats";
  return json;
}

ModelFile fileOf(const ordered_json& json) {
  auto file = ModelFile::parse(json.dump(), "slats");
  if (file) return std::move(*file);
  ADD_FAILURE() << file.error().line();
  return std::move(*ModelFile::parse(ModelText().json().dump(), "nothing"));
}

TEST(Questions, AreThoseOfTheModelWithTheirBounds) {
  const auto questions = joinery::questionsOf(fileOf(slats()));
  ASSERT_TRUE(questions) << questions.error().line();
  ASSERT_EQ(questions->size(), 5U);
  EXPECT_EQ(questions->at(0).kind, AskedQuestion::Kind::length);
  EXPECT_EQ(questions->at(0).least, 300);
  EXPECT_EQ(questions->at(0).whyGreatest, "the rail sags");
  EXPECT_EQ(questions->at(1).kind, AskedQuestion::Kind::count);
  EXPECT_EQ(questions->at(1).greatest, 10) << "a bound that follows from another answer";
  EXPECT_EQ(questions->at(2).value, "with");
  EXPECT_THAT(questions->at(2).options, ElementsAre("with", "without"));
  EXPECT_EQ(questions->at(3).kind, AskedQuestion::Kind::angle);
  EXPECT_THAT(questions->at(4).options, ElementsAre("white oak", "hard maple"));
}

TEST(Questions, TakeTheirAnswersAllAtOnce) {
  const auto piece = joinery::answered(
      fileOf(slats()),
      {{"slats", "12"}, {"width", "30 in"}, {"rail", "Without"}, {"kind", "hard maple"}}, Unit::mm);
  ASSERT_TRUE(piece) << piece.error().line();
  EXPECT_EQ(piece->model().parts.size(), 12U);
  EXPECT_EQ(piece->model().materials[0].species, "hard maple");
  const ordered_json saved = ordered_json::parse(piece->text());
  EXPECT_EQ(saved["dimensions"]["width"]["value"], "30 in");
  EXPECT_EQ(saved["dimensions"]["rail"]["value"], "without");
  EXPECT_EQ(saved["choices"]["kind"]["value"], "hard maple");
  EXPECT_EQ(saved["dimensions"]["width"]["ask"], "How wide?") << "it may be begun from again";
}

TEST(Questions, TakeLengthsInTheUnitThatIsSpoken) {
  const auto piece = joinery::answered(fileOf(slats()), {{"width", "20"}}, Unit::inch);
  ASSERT_TRUE(piece) << piece.error().line();
  const auto questions = joinery::questionsOf(*piece);
  EXPECT_NEAR(questions->at(0).number.value(), 508, 1e-9);
}

TEST(Questions, TakeFractionsAndSumsInTheUnitThatIsSpoken) {
  const auto widthOf = [](const std::string& answer) {
    const auto piece = joinery::answered(fileOf(slats()), {{"width", answer}}, Unit::inch);
    if (!piece) ADD_FAILURE() << piece.error().line();
    return piece ? joinery::questionsOf(*piece)->at(0).number.value() : 0;
  };
  EXPECT_NEAR(widthOf("20 1/2"), 20.5 * 25.4, 1e-9);
  EXPECT_NEAR(widthOf("20 + 4"), 24 * 25.4, 1e-9);
  EXPECT_NEAR(widthOf("2 * (10 + 1/2)"), 21 * 25.4, 1e-9);
  EXPECT_NEAR(widthOf("20 + 4 mm"), 20 * 25.4 + 4, 1e-6);
  EXPECT_NEAR(widthOf("500 mm"), 500, 1e-9);
}

TEST(Questions, TellBoundsThatAreThemselvesWithinTheBounds) {
  const ModelFile file = fileOf(slats());
  const std::string line = joinery::answered(file, {{"width", "40"}}, Unit::inch).error().line();
  EXPECT_THAT(line, HasSubstr("it goes from 11 13/16 to 35 27/64 in")) << "300 to 900 mm";
  EXPECT_TRUE(joinery::answered(file, {{"width", "11 13/16"}}, Unit::inch));
  EXPECT_TRUE(joinery::answered(file, {{"width", "35 27/64"}}, Unit::inch));
}

TEST(Questions, GiveTheReasonOfTheBoundThatWasPassed) {
  ordered_json json = slats();
  json["dimensions"]["width"]["why"] = {{"least", "narrower ones tip"},
                                        {"greatest", "the rail sags beyond {914.4 mm}"}};
  const ModelFile file = fileOf(json);
  const auto lineOf = [&](const char* width, Unit unit) {
    return joinery::answered(file, {{"width", width}}, unit).error().line();
  };
  EXPECT_THAT(lineOf("200", Unit::mm), HasSubstr("; narrower ones tip"));
  EXPECT_THAT(lineOf("1000", Unit::mm), HasSubstr("; the rail sags beyond 914.4 mm"));
  EXPECT_THAT(lineOf("40", Unit::inch), HasSubstr("; the rail sags beyond 36 in"));
  EXPECT_EQ(joinery::reasonWords(joinery::questionsOf(file)->at(0), Unit::inch),
            "narrower ones tip; the rail sags beyond 36 in");
}

TEST(Questions, TellAnAnswerOutOfBoundsWithTheBoundsAndWhy) {
  const auto lineOf = [](const joinery::Answers& answers) {
    const auto piece = joinery::answered(fileOf(slats()), answers, Unit::mm);
    if (piece) ADD_FAILURE() << "taken";
    return piece ? std::string() : piece.error().line();
  };
  EXPECT_EQ(lineOf({{"width", "950"}}),
            "width: 950 mm is too much: it goes from 300 to 900 mm; the rail sags");
  EXPECT_THAT(lineOf({{"width", "20"}}), HasSubstr("20 mm is too little"));
  EXPECT_THAT(lineOf({{"slats", "11"}}),
              HasSubstr("from 2 to 10 as long as width is 600 mm; slats stand apart"));
  EXPECT_THAT(lineOf({{"width", "300"}, {"slats", "6"}}),
              HasSubstr("from 2 to 5 as long as width is 300 mm; slats stand apart"));
  EXPECT_THAT(lineOf({{"width", "20"}, {"slats", "1"}}),
              HasSubstr("; slats: 1 is too little: it goes from 2 to 0"))
      << "every answer that is wrong is told";
  EXPECT_THAT(lineOf({{"slats", "2.5"}}), HasSubstr("'2.5' is not a whole number"));
  EXPECT_THAT(lineOf({{"lean", "-1"}}), HasSubstr("0 or more"));
  EXPECT_THAT(lineOf({{"width", "wide"}}), HasSubstr("'wide' is not a number"));
  EXPECT_THAT(lineOf({{"rail", "maybe"}}), HasSubstr("choose from with, without"));
  EXPECT_THAT(lineOf({{"kind", "oakk"}}), HasSubstr("choose from white oak, hard maple"));
  EXPECT_THAT(lineOf({{"widht", "700"}}), HasSubstr("did you mean 'width'?"));
}

TEST(Questions, TellInOneLineWhatIsWrongWithThemselves) {
  const auto errorWith = [](const char* pointer, const ordered_json& value) {
    ordered_json json = slats();
    json[ordered_json::json_pointer(pointer)] = value;
    const auto file = ModelFile::parse(json.dump(), "slats");
    if (file) ADD_FAILURE() << "read";
    return file ? std::string() : file.error().line();
  };
  EXPECT_THAT(errorWith("/dimensions/rail/value", "wihout"),
              HasSubstr("dimensions.rail.value: 'wihout' is not among its options; did you mean "
                        "'without'?"));
  EXPECT_THAT(errorWith("/dimensions/rail/options", "with"), HasSubstr("dimensions.rail"));
  EXPECT_THAT(errorWith("/choices/kind/value", "white oka"),
              HasSubstr("did you mean 'white oak'?"));
  EXPECT_THAT(errorWith("/materials/wood/species", {{"choice", "kin"}}),
              HasSubstr("materials.wood.species.choice: there is no choice 'kin'"));
  EXPECT_THAT(errorWith("/dimensions/width/why", "beyond {900 or so}"),
              HasSubstr("dimensions.width.why: what stands in braces is not a length"));
  EXPECT_THAT(errorWith("/dimensions/plain", {{"value", 3}, {"least", 1}}),
              HasSubstr("this belongs to a question"));
}

}  // namespace
}  // namespace dryfit::test

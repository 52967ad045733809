#include "joinery/making/marks.h"

#include "joinery/joints/evaluate.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "tests/joinery/cupboard_sample.h"
#include "tests/support/demo_pieces.h"

namespace dryfit::joinery {
namespace {

void setDimension(ModelFile& file, const std::string& name, const std::string& value) {
  const Result<void> set = file.setDimension(name, value);
  ASSERT_TRUE(set) << set.error().line();
}

std::vector<Finding> lockedOf(const ModelFile& file, Basis basis = Basis::measured) {
  return findingsOfKind(fitOf(file.model(), basis), FindingKind::locked);
}

TEST(Mark, IsWrittenBelowTheModelAndTakenBackWithoutATrace) {
  ModelFile file = fileFrom(cupboardText());
  mark(file, "left_stile", MarkState::cut);
  for (const char* line : {"\"state\": \"cut\",", "\"length\": 700,", "\"width\": 62,",
                           "\"thickness\": 23,", "\"blank\": [700, 62, 23]"}) {
    EXPECT_NE(file.text().find(line, file.text().find("\"marks\"")), std::string::npos) << line;
  }
  EXPECT_EQ(fileFrom(file.text()).text(), file.text());
  ASSERT_TRUE(file.eraseMark("left_stile"));
  EXPECT_EQ(file.text(), cupboardText());
  EXPECT_FALSE(file.eraseMark("left_stile"));
  EXPECT_EQ(file.eraseMark("left_style").error().code, ErrorCode::unknownName);
}

TEST(Mark, OfAJointedPartHoldsAllThatItsJointsMade) {
  ModelFile file = fileFrom(cupboardText());
  mark(file, "top_rail", MarkState::jointed);
  const Mark& kept = file.model().marks.front();
  const auto piece = evaluate(file.model(), Basis::measured);
  ASSERT_TRUE(piece) << piece.error().line();
  const PlacedPart& rail = partNamed(*piece, "top_rail");
  EXPECT_EQ(kept.state, MarkState::jointed);
  EXPECT_NEAR(kept.overall.x, 900 - 2 * 20 - 2 * 62 + 2 * 32, 1e-9);
  EXPECT_NEAR(kept.blank.x, 900 - 2 * 20 - 2 * 62, 1e-9);
  EXPECT_EQ(kept.features.size(), rail.features.size());
  EXPECT_GE(kept.features.size(), 5U);  // two tenons, two haunches, the panel's groove
}

TEST(Mark, SurvivesItsFileToATenthOfAThousandth) {
  for (const std::string& name : test::soundPieces()) {
    ModelFile file = test::demoPiece(name);
    for (const Part& part : std::vector<Part>(file.model().parts)) {
      mark(file, part.name, MarkState::jointed);
    }
    const auto again = ModelFile::parse(file.text(), name);
    ASSERT_TRUE(again) << again.error().line();
    EXPECT_EQ(again->text(), file.text());
    const auto piece = evaluate(again->model(), Basis::measured);
    ASSERT_TRUE(piece) << piece.error().line();
    for (const double off : misfits(*piece)) EXPECT_NEAR(off, 0, 1e-4);
    EXPECT_TRUE(differencesFromMarks(*piece).empty()) << name;
  }
}

TEST(Mark, IsHeldInTheUnitOfTheFile) {
  for (unsigned seed = 1; seed <= 60; ++seed) {
    SCOPED_TRACE(seed);
    ModelFile file = fileFrom(RandomModel(seed).text());
    if (!evaluate(file.model(), Basis::measured)) continue;  // two boards that cannot meet
    for (const Part& part : std::vector<Part>(file.model().parts)) {
      mark(file, part.name, static_cast<MarkState>(seed % 4));
    }
    const ModelFile again = fileFrom(file.text());
    const auto piece = evaluate(again.model(), Basis::measured);
    ASSERT_TRUE(piece) << piece.error().line();
    for (const double off : misfits(*piece)) EXPECT_NEAR(off, 0, 1e-4);
  }
}

TEST(Mark, RefusesWhatIsNoMark) {
  const auto refused = [](const std::string& marks, const std::string& says) {
    const std::string text =
        replaced(cupboardText(), "\"groups\": {", "\"marks\": " + marks + ",\n  \"groups\": {");
    const auto file = ModelFile::parse(text, "m");
    ASSERT_FALSE(file) << marks;
    EXPECT_NE(file.error().line().find(says), std::string::npos) << file.error().line();
  };
  refused(R"({"left_style": {"state": "rough"}})", "left_stile");
  refused(R"({"left_stile": {"state": "sawn"}})", "machined");
  refused(R"({"left_stile": {"state": "cut", "length": 700, "width": 62}})", "thickness");
  refused(R"({"left_stile": {"state": "rough", "length": 700}})", "length");
  refused(R"({"left_stile": {"state": "cut", "length": "front_height", "width": 62,
             "thickness": 23}})",
          "a number");
  refused(R"({"left_stile": {"state": "cut", "length": -700, "width": 62, "thickness": 23}})",
          "marks.left_stile.length");
  refused(R"({"left_stile": {"state": "jointed", "length": 700, "width": 62, "thickness": 23}})",
          "blank");
  refused(R"({"left_stile": {"state": "jointed", "length": 700, "width": 62, "thickness": 23,
             "blank": [1, 2]}})",
          "list of 3");
  refused(R"({"left_stile": {"state": "jointed", "length": 700, "width": 62, "thickness": 23,
             "blank": [700, 62, 23], "joints": {"a": [["mortise", 1, 2, 3]]}}})",
          "list of 7");
}

// Overall length of a rail: 900 - 2 * 20 - 2 * 62 + 2 * 32 = 800 mm.
TEST(Locked, ARailThatIsCutIsTooShortForAWiderOpening) {
  ModelFile file = fileFrom(cupboardText());
  mark(file, "top_rail", MarkState::cut);
  EXPECT_TRUE(lockedOf(file).empty());
  setDimension(file, "opening_width", "912");
  const auto found = lockedOf(file);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].severity, Severity::error);
  EXPECT_NEAR(found[0].measured, 800, 1e-9);
  EXPECT_NEAR(found[0].limit, 812, 1e-9);
  EXPECT_NE(found[0].text.find("gone"), std::string::npos) << found[0].text;
  EXPECT_NE(found[0].mend.find("scribe_width 26 mm (6 mm more)"), std::string::npos)
      << found[0].mend;
}

TEST(Locked, ARailThatIsTooLongCanBeTrimmed) {
  ModelFile file = fileFrom(cupboardText());
  mark(file, "top_rail", MarkState::cut);
  setDimension(file, "opening_width", "897.5");
  const auto found = lockedOf(file);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].severity, Severity::warning);
  EXPECT_EQ(found[0].mend.find("Trim the length of top rail by 2.5 mm"), 0U) << found[0].mend;
}

TEST(Locked, WhatAStateDoesNotFixMayStillChange) {
  for (const MarkState state : {MarkState::rough, MarkState::machined}) {
    ModelFile file = fileFrom(cupboardText());
    mark(file, "top_rail", state);
    setDimension(file, "opening_width", "912");
    EXPECT_TRUE(lockedOf(file).empty()) << nameOf(state);
  }
  ModelFile file = fileFrom(cupboardText());
  mark(file, "top_rail", MarkState::machined);
  setDimension(file, "rail_width", "71");
  ASSERT_EQ(lockedOf(file).size(), 1U);
  EXPECT_EQ(lockedOf(file)[0].severity, Severity::error);
  setDimension(file, "rail_width", "69.96");  // within what a made part may be off
  EXPECT_TRUE(lockedOf(file).empty());
}

TEST(Locked, AMortiseAlreadyCutCannotMove) {
  ModelFile file = fileFrom(cupboardText());
  mark(file, "left_stile", MarkState::jointed);
  EXPECT_TRUE(lockedOf(file).empty());
  setDimension(file, "rail_width", "64");
  const auto found = lockedOf(file);
  ASSERT_FALSE(found.empty());
  for (const Finding& f : found) EXPECT_EQ(f.text.find("Left stile is jointed"), 0U) << f.text;
  EXPECT_TRUE(std::ranges::any_of(found, [](const Finding& f) {
    return f.severity == Severity::error && f.text.find("mortise") != std::string::npos;
  }));
}

TEST(Locked, AMortiseMayBecomeDeeperAndATenonShorterButNotTheOtherWay) {
  const auto severities = [](const std::string& part, const std::string& tenon) {
    ModelFile file = fileFrom(cupboardText());
    mark(file, part, MarkState::jointed);
    setDimension(file, "tenon", tenon);
    std::set<Severity> all;
    for (const Finding& f : lockedOf(file)) all.insert(f.severity);
    return all;
  };
  EXPECT_EQ(severities("left_stile", "34"), std::set{Severity::warning});
  EXPECT_EQ(severities("left_stile", "30"), std::set{Severity::error});
  EXPECT_EQ(severities("top_rail", "30"), std::set{Severity::warning});
  EXPECT_EQ(severities("top_rail", "34"), std::set{Severity::error});
}

TEST(Locked, JointsThatCameAndWentAreNamed) {
  ModelFile file = fileFrom(cupboardText());
  mark(file, "left_stile", MarkState::jointed);
  const std::string text = file.text();
  const std::string gone =
      replaced(text,
               text.substr(text.find("    \"top_left\": {"),
                           text.find("    \"top_right\": {") - text.find("    \"top_left\": {")),
               "");
  const auto without = lockedOf(fileFrom(gone));
  ASSERT_FALSE(without.empty());
  EXPECT_TRUE(std::ranges::any_of(without, [](const Finding& f) {
    return f.text.find("mortise of joint top_left, which the design no longer has") !=
           std::string::npos;
  }));
  ModelFile later = fileFrom(gone.substr(0, gone.find(",\n  \"marks\"")) + "\n}\n");
  mark(later, "left_stile", MarkState::jointed);
  Model model = later.model();
  model.joints = file.model().joints;
  const auto came = findingsOfKind(fitOf(model), FindingKind::locked);
  ASSERT_FALSE(came.empty());
  EXPECT_TRUE(std::ranges::any_of(came, [](const Finding& f) {
    return f.severity == Severity::warning &&
           f.text.find("without the mortise of joint top_left") != std::string::npos;
  }));
}

TEST(Locked, AMadePartIsAsWideAsItIsReadAgain) {
  ModelFile file = fileFrom(cupboardText());
  mark(file, "left_stile", MarkState::cut);
  ASSERT_TRUE(lockedOf(file).empty());
  ASSERT_TRUE(file.setMeasurement(
      {Measurement::Scope::part, "left_stile", SizeName::width, {"61.3", true}}));
  EXPECT_NEAR(markOf(file.model(), "left_stile")->overall.y, 61.3, 1e-9);
  for (const Finding& f : lockedOf(file)) {
    for (const PartId part : f.parts) {
      EXPECT_NE(file.model().parts[part.index()].name, "left_stile") << f.text;
    }
  }
}

TEST(Locked, TheDrawnLookLeavesRealWoodOutOfAccount) {
  ModelFile file = fileFrom(cupboardText());
  ASSERT_TRUE(file.setMeasurement(
      {Measurement::Scope::part, "left_stile", SizeName::width, {"60.8", true}}));
  mark(file, "left_stile", MarkState::cut);
  EXPECT_TRUE(lockedOf(file, Basis::measured).empty());
  EXPECT_TRUE(lockedOf(file, Basis::drawn).empty());
  setDimension(file, "front_height", "705");
  EXPECT_EQ(lockedOf(file, Basis::measured).size(), 1U);
  EXPECT_TRUE(lockedOf(file, Basis::drawn).empty());
}

}  // namespace
}  // namespace dryfit::joinery

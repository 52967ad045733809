#include "joinery/fit/absorb.h"

#include "joinery/base/unit.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <random>
#include <sstream>

#include "joinery/formula/length_text.h"
#include "tests/joinery/cupboard_sample.h"

namespace dryfit::joinery {
namespace {

ModelFile cupboardWithCutRails(const std::string& openingThen) {
  ModelFile file = fileFrom(cupboardText());
  mark(file, "top_rail", MarkState::cut);
  mark(file, "bottom_rail", MarkState::cut);
  if (!file.setDimension("opening_width", openingThen)) ADD_FAILURE();
  return file;
}

std::vector<Absorption> allFor(const Model& model) {
  auto all = absorptions(model, Basis::measured);
  if (!all) throw std::runtime_error(all.error().line());
  return all->sound;
}

Result<void> apply(ModelFile& file, const Absorption& one) {
  return one.what.joint.empty()
             ? file.setDimension(one.what.name, one.afterText)
             : file.setJointParameter(one.what.joint, one.what.parameter, one.afterText);
}

int linesThatDiffer(const std::string& a, const std::string& b) {
  std::istringstream first(a), second(b);
  std::string x, y;
  int differ = 0;
  while (std::getline(first, x) && std::getline(second, y)) differ += x == y ? 0 : 1;
  return differ;
}

TEST(Absorb, TellsOfTheOnlyChangeThatIsThereAndWhatItWouldBreak) {
  // Only the width of the opening is a plain number here, and the brief holds it.
  std::string text = cupboardText();
  for (const auto& [from, to] : {std::pair("\"scribe_width\": 20", "\"scribe_width\": \"10 + 10\""),
                                 {"\"stile_width\": 62", "\"stile_width\": \"60 + 2\""},
                                 {"\"tenon\": 32", "\"tenon\": \"30 + 2\""},
                                 {"\"unit\": \"mm\",",
                                  "\"unit\": \"mm\", \"brief\": "
                                  "{\"width\": 906, \"tolerance\": 5.6},"}}) {
    text = replaced(text, from, to);
  }
  ModelFile file = fileFrom(text);
  mark(file, "top_rail", MarkState::cut);
  ASSERT_TRUE(file.setDimension("opening_width", "906"));
  const auto all = absorptions(file.model(), Basis::measured);
  ASSERT_TRUE(all) << all.error().line();
  EXPECT_TRUE(all->sound.empty());
  ASSERT_EQ(all->unsound.size(), 1U);
  EXPECT_EQ(all->unsound[0].what.name, "opening_width");
  ASSERT_FALSE(all->unsound[0].resultingFindings.empty());
  const Finding& why = all->unsound[0].resultingFindings[0];
  EXPECT_EQ(why.kind, FindingKind::envelope);
  EXPECT_NEAR(std::fabs(why.measured - why.limit), 0.4, 1e-6) << why.text;
}

// A rail is opening - 2 scribes - 2 stiles + 2 tenons long. 12 mm more opening is taken up by
// scribes 6 mm wider, by stiles 6 mm wider, by tenons 6 mm shorter, or by the opening itself.
TEST(Absorb, FindsEveryNumberThatTakesUpAWiderOpening) {
  const ModelFile file = cupboardWithCutRails("912");
  const auto all = allFor(file.model());
  ASSERT_EQ(all.size(), 4U);
  std::map<std::string, double> by;
  for (const Absorption& one : all) by[one.what.name] = one.after - one.before;
  EXPECT_NEAR(by.at("scribe_width"), 6, 1e-3);
  EXPECT_NEAR(by.at("stile_width"), 6, 1e-3);
  EXPECT_NEAR(by.at("tenon"), -6, 1e-3);
  EXPECT_NEAR(by.at("opening_width"), -12, 1e-3);
  for (std::size_t i = 1; i < all.size(); ++i) {
    EXPECT_LE(std::fabs(all[i - 1].after - all[i - 1].before),
              std::fabs(all[i].after - all[i].before) + 1e-6);
  }
}

TEST(Absorb, TellsWhatElseAChangeBrings) {
  const auto all = allFor(cupboardWithCutRails("912").model());
  for (const Absorption& one : all) {
    for (const Finding& f : one.resultingFindings) EXPECT_NE(f.severity, Severity::error) << f.text;
    for (const std::string& part : one.partsChanged) {
      EXPECT_NE(part, "top_rail");
      EXPECT_NE(part, "bottom_rail");
    }
    if (one.what.name == "tenon") {
      // 26 mm is less than half of the 62 mm stile.
      ASSERT_FALSE(one.resultingFindings.empty());
      EXPECT_EQ(one.resultingFindings[0].kind, FindingKind::weak);
    }
    if (one.what.name == "scribe_width") {
      // The panel, not cut yet, had become wider with the opening.
      EXPECT_TRUE(one.resultingFindings.empty());
      EXPECT_EQ(one.partsChanged,
                (std::vector<std::string>{"left_scribe", "right_scribe", "panel"}));
    }
  }
}

TEST(Absorb, UpsetsNoOtherMadePart) {
  ModelFile file = cupboardWithCutRails("900");
  mark(file, "left_stile", MarkState::jointed);  // neither its width nor its mortises may change
  ASSERT_TRUE(file.setDimension("opening_width", "912"));
  std::vector<std::string> names;
  for (const Absorption& one : allFor(file.model())) names.push_back(one.what.name);
  EXPECT_EQ(names, (std::vector<std::string>{"scribe_width", "opening_width"}));
}

TEST(Absorb, HasNothingToSayWhereEverythingFits) {
  EXPECT_TRUE(allFor(cupboardWithCutRails("900").model()).empty());
  EXPECT_TRUE(allFor(fileFrom(cupboardText()).model()).empty());
}

TEST(Absorb, AJointsOwnNumberMayTakeItUp) {
  std::string text = cupboardText();
  text = replaced(text, "\"mortise\": \"left_stile\",\n      \"tenon_length\": \"tenon\"",
                  "\"mortise\": \"left_stile\",\n      \"tenon_length\": 32");
  ModelFile file = fileFrom(text);
  mark(file, "top_rail", MarkState::cut);
  ASSERT_TRUE(file.setDimension("opening_width", "897"));
  const auto all = allFor(file.model());
  const auto own = std::ranges::find(all, "top_left.tenon_length",
                                     [](const Absorption& a) { return a.what.name; });
  ASSERT_NE(own, all.end());
  EXPECT_NEAR(own->after, 35, 1e-3);
  const std::string before = file.text();
  ASSERT_TRUE(apply(file, *own));
  EXPECT_EQ(linesThatDiffer(before, file.text()), 1);
  EXPECT_TRUE(findingsOfKind(fitOf(file.model()), FindingKind::locked).empty());
}

/// The cupboard with all lengths given in another unit.
std::string inUnit(Unit unit) {
  nlohmann::ordered_json json = nlohmann::ordered_json::parse(cupboardText());
  json["unit"] = std::string(nameOf(unit));
  for (auto& [name, value] : json["dimensions"].items()) {
    auto& number = value.is_object() ? value["value"] : value;
    number = number.get<double>() / millimetresIn(unit);
  }
  for (auto& [name, material] : json["materials"].items()) {
    material["thickness"] = material["thickness"].get<double>() / millimetresIn(unit);
  }
  return json.dump();
}

TEST(Absorb, WhatItFindsFitsAfterARandomChangeInAnyUnit) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937_64 random(seed);
  std::uniform_real_distribution<double> change(-25, 25);
  int found = 0;
  for (const Unit unit : {Unit::mm, Unit::cm, Unit::inch}) {
    for (int round = 0; round < 3; ++round) {
      ModelFile file = fileFrom(inUnit(unit));
      mark(file, "top_rail", MarkState::cut);
      const double opening = (900 + change(random)) / millimetresIn(unit);
      ASSERT_TRUE(file.setDimension("opening_width", fmt::format("{:.4f}", opening)));
      for (const Absorption& one : allFor(file.model())) {
        ModelFile then = file;
        ASSERT_TRUE(apply(then, one));
        EXPECT_EQ(linesThatDiffer(file.text(), then.text()), 1);
        const DryFit fit = fitOf(then.model());
        EXPECT_TRUE(findingsOfKind(fit, FindingKind::locked).empty()) << one.what.name;
        ++found;
      }
    }
  }
  EXPECT_GT(found, 9);
}

}  // namespace
}  // namespace dryfit::joinery

// What a shop says of itself in the model: its cutters, and woods that no table has.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "joinery/file/model_file.h"
#include "joinery/joints/evaluate.h"
#include "tests/support/joint_bench.h"

namespace dryfit::test {
namespace {

using nlohmann::ordered_json;
using ::testing::HasSubstr;

/// A rail of 24 tenoned into a stile.
ordered_json corner(const std::string& unit = "mm") {
  ModelText text;
  text.part("stile", {"z", 0, unit == "in" ? 20 : 500}, {"x", 0, unit == "in" ? 2.5 : 60},
            {"y", 0, unit == "in" ? 1 : 24})
      .part("rail", {"x", "stile.right", unit == "in" ? 12 : 300},
            {"z", unit == "in" ? 5 : 100, unit == "in" ? 2.5 : 60}, {"y", 0, unit == "in" ? 1 : 24})
      .joint("corner", {{"kind", "blind-mortise-tenon"}, {"tenon", "rail"}, {"mortise", "stile"}});
  ordered_json json = text.json();
  json["unit"] = unit;
  return json;
}

double tenonThickness(const ordered_json& json) {
  const auto file = joinery::ModelFile::parse(json.dump(), "corner");
  if (!file) {
    ADD_FAILURE() << file.error().line();
    return 0;
  }
  const auto piece = joinery::evaluate(file->model(), joinery::Basis::drawn);
  if (!piece) {
    ADD_FAILURE() << piece.error().line();
    return 0;
  }
  for (const joinery::JointValue& value : piece->joints.front().values) {
    if (value.name == "tenon thickness") return value.value;
  }
  ADD_FAILURE() << "no thickness";
  return 0;
}

std::string errorIn(const ordered_json& json) {
  const auto file = joinery::ModelFile::parse(json.dump(), "corner");
  if (!file) return file.error().line();
  ADD_FAILURE() << "read without complaint";
  return {};
}

TEST(Cutters, OfTheShopAreTheWidthsThatMortisesGet) {
  ordered_json json = corner();
  EXPECT_NEAR(tenonThickness(json), 8, 0.2);
  json["cutters"] = {5, 7, 9.5};
  EXPECT_NEAR(tenonThickness(json), 7, 0.2) << "7 is nearest to a third of 24";
  json["cutters"] = {12};
  EXPECT_NEAR(tenonThickness(json), 12, 0.2);
}

TEST(Cutters, MayBeWrittenInInches) {
  ordered_json json = corner("in");
  EXPECT_NEAR(tenonThickness(json), 25.4 * 5 / 16, 0.2) << "of the usual set";
  json["cutters"] = {"1/4 in", "3/8 in"};
  EXPECT_NEAR(tenonThickness(json), 25.4 * 3 / 8, 0.2);
}

TEST(Cutters, AreReadWithCare) {
  for (const ordered_json& wrong :
       {ordered_json::array(), ordered_json{8, 6}, ordered_json{8, 8}, ordered_json{0},
        ordered_json{-3}, ordered_json{"eight"}, ordered_json("8"), ordered_json{{{"a", 8}}}}) {
    ordered_json json = corner();
    json["cutters"] = wrong;
    EXPECT_THAT(errorIn(json), HasSubstr("cutters")) << wrong;
  }
}

TEST(Dowels, AreCalledAsTheyAreSoldInTheFilesUnit) {
  for (const std::string unit : {"mm", "in"}) {
    ordered_json json = corner(unit);
    json["joints"]["corner"] = {{"kind", "dowels"}, {"end", "rail"}, {"face", "stile"}};
    const auto file = joinery::ModelFile::parse(json.dump(), "corner");
    ASSERT_TRUE(file) << file.error().line();
    const auto piece = joinery::evaluate(file->model(), joinery::Basis::drawn);
    ASSERT_TRUE(piece) << piece.error().line();
    const std::string& name = piece->joints.front().hardware.front().name;
    EXPECT_THAT(name, HasSubstr(unit == "mm" ? "dowel 8 x " : "dowel 5/16 x "));
    EXPECT_THAT(name, testing::EndsWith(unit));
  }
}

TEST(Woods, OfTheShopServeAsSpecies) {
  ordered_json json = corner();
  json["materials"]["wood"]["species"] = "bog oak";
  EXPECT_THAT(errorIn(json), HasSubstr("there is no species 'bog oak'"));
  json["woods"] = {{"bog oak",
                    {{"density", 800},
                     {"radial", 0.002},
                     {"tangential", 0.0034},
                     {"hardness", "hard"},
                     {"source", "the yard's sheet"}}}};
  const auto file = joinery::ModelFile::parse(json.dump(), "corner");
  ASSERT_TRUE(file) << file.error().line();
  ASSERT_EQ(file->model().woods.size(), 1U);
  EXPECT_EQ(file->model().woods[0].tangential, 0.0034);
  json["materials"]["wood"]["species"] = "Bog-oak";
  EXPECT_TRUE(joinery::ModelFile::parse(json.dump(), "corner")) << "as names of woods are read";
}

TEST(Woods, AreReadWithCare) {
  const ordered_json good = {
      {"density", 800}, {"radial", 0.002}, {"tangential", 0.0034}, {"source", "the yard"}};
  const std::vector<std::pair<std::string, ordered_json>> changes{
      {"density", 5},   {"density", "heavy"}, {"radial", 0.2},
      {"radial", -0.1}, {"hardness", "very"}, {"colour", "black"}};
  for (const auto& [key, value] : changes) {
    ordered_json json = corner();
    json["woods"]["bog oak"] = good;
    json["woods"]["bog oak"][key] = value;
    EXPECT_THAT(errorIn(json), HasSubstr(key)) << value;
  }
  for (const char* key : {"density", "radial", "tangential", "source"}) {
    ordered_json json = corner();
    json["woods"]["bog oak"] = good;
    json["woods"]["bog oak"].erase(key);
    EXPECT_THAT(errorIn(json), HasSubstr(key));
  }
}

TEST(OwnShop, IsSavedAsWritten) {
  ordered_json json = corner();
  json["cutters"] = {6, 9.50, "3/8 in"};
  json["woods"]["bog oak"] = {{"density", 800},
                              {"radial", 0.0020},
                              {"tangential", 0.0034},
                              {"source", "the yard"},
                              {"note", "dug up at the quay"}};
  const auto file = joinery::ModelFile::parse(json.dump(), "corner");
  ASSERT_TRUE(file) << file.error().line();
  const ordered_json saved = ordered_json::parse(file->text());
  EXPECT_EQ(saved["cutters"], json["cutters"]);
  EXPECT_EQ(saved["woods"], json["woods"]);
  const auto again = joinery::ModelFile::parse(file->text(), "saved");
  ASSERT_TRUE(again);
  EXPECT_EQ(again->text(), file->text());
  EXPECT_EQ(again->model().cutters, file->model().cutters);
}

}  // namespace
}  // namespace dryfit::test

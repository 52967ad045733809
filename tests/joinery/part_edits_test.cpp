// Parts and joints are added, renamed and taken out, and what names them follows.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "joinery/file/part_edits.h"
#include "joinery/fit/dry_fit.h"
#include "joinery/joints/evaluate.h"
#include "tests/support/joint_bench.h"
#include "tests/support/random_answers.h"

namespace dryfit::test {
namespace {

using joinery::ModelFile;
using nlohmann::ordered_json;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::UnorderedElementsAre;

/// Two posts and a rail between them, a shelf that stands on the rail and is repeated.
ordered_json stand() {
  ModelText text;
  text.part("left_post", {"z", 0, 700}, {"x", 0, 60}, {"y", 0, 30})
      .part("right_post", {"z", 0, 700}, {"x", 540, 60}, {"y", 0, 30})
      .part("rail", {"x", 60, 480}, {"z", 100, 70}, {"y", 0, 30})
      .part("slat", {"x", 60, 480}, {"y", 0, 30}, {"z", 0, 12})
      .joint("rail_left",
             {{"kind", "blind-mortise-tenon"}, {"tenon", "rail"}, {"mortise", "left_post"}})
      .joint("rail_right",
             {{"kind", "blind-mortise-tenon"}, {"tenon", "rail"}, {"mortise", "right_post"}})
      .joint("slats_on_posts",
             {{"kind", "butt"}, {"first", "slat"}, {"second", {"left_post", "right_post"}}});
  ordered_json json = text.json();
  json["parts"]["rail"]["length"] = {
      {"along", "x"}, {"from", "left_post.right"}, {"to", "right_post.left"}};
  json["parts"]["slat"]["repeat"] = 2;
  json["parts"]["slat"]["thickness"]["from"] = "rail.top + 50 * copy";
  json["hardware"]["screw"] = {{"count", 4}, {"holds", {"slat", "rail"}}};
  json["measured"]["parts"]["rail"] = {{"width", 68}};
  return json;
}

ModelFile fileOf(const ordered_json& json) {
  auto file = ModelFile::parse(json.dump(), "stand");
  if (file) return std::move(*file);
  ADD_FAILURE() << file.error().line();
  std::abort();
}

std::map<std::string, double> valuesOf(const ModelFile& file) {
  const auto piece = joinery::evaluate(file.model(), joinery::Basis::drawn);
  if (!piece) ADD_FAILURE() << piece.error().line();
  return {piece->values.begin(), piece->values.end()};
}

TEST(PartEdits, ARenamedPartIsNamedSoEverywhere) {
  ModelFile file = fileOf(stand());
  const auto before = valuesOf(file);
  ASSERT_TRUE(joinery::renamePart(file, "rail", "stretcher"));
  ASSERT_TRUE(joinery::renamePart(file, "slat_2", "ledge"));
  const ordered_json json = ordered_json::parse(file.text());
  EXPECT_EQ(json["joints"]["rail_left"]["tenon"], "stretcher");
  EXPECT_EQ(json["parts"]["ledge"]["thickness"]["from"], "stretcher.top + 50 * copy");
  EXPECT_EQ(json["hardware"]["screw"]["holds"], (ordered_json{"ledge", "stretcher"}));
  EXPECT_EQ(json["measured"]["parts"]["stretcher"]["width"], 68);
  EXPECT_EQ(valuesOf(file).at("ledge_2.bottom"), before.at("slat_2.bottom"));
  ASSERT_TRUE(joinery::renamePart(file, "stretcher", "rail"));
  ASSERT_TRUE(joinery::renamePart(file, "ledge", "slat"));
  EXPECT_EQ(ordered_json::parse(file.text()), stand()) << "and back again";
}

TEST(PartEdits, ANameThatIsTakenOrNoneChangesNothing) {
  ModelFile file = fileOf(stand());
  const std::string before = file.text();
  EXPECT_THAT(joinery::renamePart(file, "rail", "slat").error().line(), HasSubstr("is taken"));
  EXPECT_FALSE(joinery::renamePart(file, "rail", "Top Rail"));
  EXPECT_THAT(joinery::renamePart(file, "rial", "x").error().line(),
              HasSubstr("did you mean 'rail'?"));
  EXPECT_EQ(file.text(), before);
}

TEST(PartEdits, WhatHangsOnAPartIsNamed) {
  const ModelFile file = fileOf(stand());
  const auto rail = joinery::hangingOn(file, "rail");
  ASSERT_TRUE(rail) << rail.error().line();
  EXPECT_THAT(rail->joints, UnorderedElementsAre("rail_left", "rail_right"));
  EXPECT_THAT(rail->expressions, ElementsAre("parts.slat.thickness.from"));
  EXPECT_THAT(rail->records, UnorderedElementsAre("hardware.screw.holds", "measured.parts.rail"));
  const auto post = joinery::hangingOn(file, "left_post");
  EXPECT_THAT(post->joints, ElementsAre("rail_left")) << "the slats lie on the other post as well";
  EXPECT_THAT(post->records, ElementsAre("joints.slats_on_posts.second"));
}

TEST(PartEdits, APartTakenOutLeavesTheRestWhereItWas) {
  ModelFile file = fileOf(stand());
  const auto before = valuesOf(file);
  ASSERT_TRUE(joinery::erasePart(file, "rail", before));
  const auto after = valuesOf(file);
  for (const auto& [name, value] : after) {
    EXPECT_NEAR(value, before.at(name), 1e-9) << name;
  }
  EXPECT_EQ(file.model().parts.size(), 4U);
  EXPECT_EQ(ordered_json::parse(file.text())["joints"].size(), 1U);
  EXPECT_EQ(ordered_json::parse(file.text())["hardware"]["screw"]["holds"], (ordered_json{"slat"}));
  ASSERT_TRUE(joinery::erasePart(file, "slat_1", after)) << "all its copies go";
  EXPECT_EQ(file.model().parts.size(), 2U);
}

TEST(PartEdits, APartIsPutBetweenFacesAndFollowsThem) {
  ModelFile file = fileOf(stand());
  const std::string before = file.text();
  joinery::NewPart part;
  part.name = joinery::freeName(file, "rail");
  EXPECT_EQ(part.name, "rail_2");
  part.material = file.model().materials.front().name;
  part.length = {"x", "left_post.right", "right_post.left", "", ""};
  part.width = {"z", "", "left_post.top", "80", ""};
  part.thickness = {"y", "left_post.front", "", "30", ""};
  ASSERT_TRUE(joinery::addPart(file, part)) << "between the posts";
  ASSERT_TRUE(joinery::addJoint(
      file,
      {"upper_left", "blind-mortise-tenon", {{"tenon", {"rail_2"}}, {"mortise", {"left_post"}}}}));
  EXPECT_NEAR(valuesOf(file).at("rail_2.length"), 480, 1e-9);
  EXPECT_FALSE(joinery::addPart(file, part)) << "the name is taken now";
  ASSERT_TRUE(joinery::setPartSpan(file, "rail_2", "width", "size", "80 + 10"));
  EXPECT_NEAR(valuesOf(file).at("rail_2.bottom"), 610, 1e-9);
  ASSERT_TRUE(joinery::setPartText(file, "rail_2", "label", "upper rail"));
  EXPECT_EQ(joinery::partText(file, "rail_2", "label"), "upper rail");
  ASSERT_TRUE(joinery::eraseJoint(file, "upper_left"));
  ASSERT_TRUE(joinery::erasePart(file, "rail_2", valuesOf(file)));
  EXPECT_EQ(file.text(), before);
}

TEST(PartEdits, AShelfIsSpreadEvenlyAndTakenBack) {
  ModelText text;
  text.part("left", {"z", 0, 1000}, {"y", 0, 250}, {"x", 0, 20})
      .part("right", {"z", 0, 1000}, {"y", 0, 250}, {"x", 620, 20})
      .part("shelf", {"x", 20, 600}, {"y", 0, 250}, {"z", 400, 20})
      .joint("ends", {{"kind", "through-housing"}, {"shelf", "shelf"}, {"side", "left"}});
  ModelFile file = fileOf(text.json());
  joinery::NewRepeat spread;
  spread.count = "3";
  spread.along = "z";
  spread.from = "0";
  spread.to = "left.top";
  ASSERT_TRUE(joinery::repeatPart(file, "shelf", spread));
  const auto values = valuesOf(file);
  // 1000 less three shelves of 20 leave four equal openings of 235.
  EXPECT_NEAR(values.at("shelf_1.bottom"), 235, 1e-9);
  EXPECT_NEAR(values.at("shelf_3.top"), 1000 - 235, 1e-9);
  EXPECT_EQ(file.model().joints.size(), 3U) << "each is housed";
  ASSERT_TRUE(joinery::repeatPart(file, "shelf_2", {}));
  EXPECT_NEAR(valuesOf(file).at("shelf.bottom"), 0, 1e-9);
  EXPECT_EQ(file.model().joints.size(), 1U);
}

TEST(PartEdits, ASideIsMirrored) {
  ModelText text;
  text.part("side", {"z", 0, 1000}, {"y", 0, 250}, {"x", 0, 20});
  ModelFile file = fileOf(text.json());
  joinery::NewRepeat mirrored;
  mirrored.along = "x";
  mirrored.plane = "300";
  ASSERT_TRUE(joinery::repeatPart(file, "side", mirrored));
  EXPECT_NEAR(valuesOf(file).at("side_2.left"), 580, 1e-9);
}

TEST(PartEdits, ThePartsOfASubAssemblyAreChangedWhereTheyAreDescribed) {
  for (const joinery::Starter& starter : builtInStarters()) {
    if (starter.name != "wardrobe") continue;
    ModelFile file = starterFile(starter);
    ASSERT_TRUE(joinery::setPartText(file, "door_2.panel", "match", "doors"));
    for (const joinery::Part& part : file.model().parts) {
      if (part.name == "door_1.panel" || part.name == "door_2.panel") {
        EXPECT_EQ(part.match, "doors") << part.name;
      }
    }
    const auto hangs = joinery::hangingOn(file, "door_1.panel");
    ASSERT_TRUE(hangs) << hangs.error().line();
    EXPECT_THAT(hangs->joints, ElementsAre("door.groove"));
  }
}

}  // namespace
}  // namespace dryfit::test

// Which joints two parts could have, and what would join a whole piece.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "joinery/building/joint_proposals.h"
#include "tests/support/joint_bench.h"
#include "tests/support/random_answers.h"

namespace dryfit::test {
namespace {

using joinery::JointProposal;
using joinery::LiveFit;
using joinery::MeetingWay;
using joinery::ModelFile;
using joinery::PartId;
using nlohmann::ordered_json;

ModelFile fileOf(const ordered_json& json) {
  auto file = ModelFile::parse(json.dump(), "proposals");
  if (file) return std::move(*file);
  ADD_FAILURE() << file.error().line();
  std::abort();
}

std::vector<std::string> kindsFor(const ModelText& text) {
  LiveFit live;
  const auto proposals = joinery::proposeJoints(fileOf(text.json()), PartId(0), PartId(1), live);
  std::vector<std::string> kinds;
  for (const JointProposal& one : proposals.value()) kinds.push_back(one.joint.kind);
  return kinds;
}

TEST(Proposals, ARailInTheMiddleOfAStileIsTenonedIntoIt) {
  ModelText text;
  text.part("stile", {"z", 0, 700}, {"x", 0, 60}, {"y", 0, 24})
      .part("rail", {"x", 60, 400}, {"z", 300, 70}, {"y", 0, 24});
  const auto kinds = kindsFor(text);
  ASSERT_GE(kinds.size(), 4U);
  EXPECT_EQ(kinds.front(), "blind-mortise-tenon");
  EXPECT_EQ(kinds.back(), "butt") << "what holds nothing by itself comes last";
}

TEST(Proposals, ARailAtTheEndOfAStileHasAHaunch) {
  ModelText text;
  text.part("stile", {"z", 0, 700}, {"x", 0, 60}, {"y", 0, 24})
      .part("rail", {"x", 60, 400}, {"z", 630, 70}, {"y", 0, 24});
  EXPECT_EQ(kindsFor(text).front(), "haunched-mortise-tenon");
}

TEST(Proposals, AShelfIsHousedInASide) {
  ModelText text;
  text.part("side", {"z", 0, 900}, {"y", 0, 250}, {"x", 0, 20})
      .part("shelf", {"x", 20, 600}, {"y", 0, 250}, {"z", 400, 20});
  EXPECT_EQ(kindsFor(text).front(), "stopped-housing");
}

TEST(Proposals, BoardsEdgeToEdgeAreGlued) {
  ModelText text;
  text.part("near", {"x", 0, 900}, {"y", 0, 120}, {"z", 0, 24})
      .part("far", {"x", 0, 900}, {"y", 120, 120}, {"z", 0, 24});
  EXPECT_EQ(kindsFor(text).front(), "edge-joint");
}

TEST(Proposals, PartsThatCrossAreLapped) {
  ModelText text;
  text.part("under", {"x", 0, 600}, {"y", 0, 60}, {"z", 0, 24})
      .part("over", {"y", -200, 500}, {"x", 250, 60}, {"z", 0, 24});
  EXPECT_EQ(kindsFor(text).front(), "half-lap");
}

TEST(Proposals, ATriedNumberIsTheJointsAndShowsInBothHalves) {
  ModelText text;
  text.part("stile", {"z", 0, 700}, {"x", 0, 60}, {"y", 0, 24})
      .part("rail", {"x", 60, 400}, {"z", 300, 70}, {"y", 0, 24});
  const ModelFile file = fileOf(text.json());
  LiveFit live;
  const auto proposals = joinery::proposeJoints(file, PartId(0), PartId(1), live);
  const JointProposal byRule = proposals.value().front();
  joinery::NewJoint joint = byRule.joint;
  joint.numbers = {{"tenon_length", "30"}};
  const JointProposal shorter = joinery::tryJoint(file, joint, byRule.why, live).value();
  joint.numbers = {{"tenon_length", "2 cm + 15"}};
  const JointProposal longer = joinery::tryJoint(file, joint, byRule.why, live).value();
  ASSERT_EQ(shorter.halves.size(), 2U);
  ASSERT_EQ(longer.halves.size(), 2U);
  const auto& tenons = std::pair(shorter.halves[0], longer.halves[0]);
  const auto& mortises = std::pair(shorter.halves[1], longer.halves[1]);
  EXPECT_EQ(tenons.first.before.volume(), tenons.second.before.volume());
  EXPECT_GT(tenons.second.after.volume(), tenons.first.after.volume());
  EXPECT_LT(mortises.second.after.volume(), mortises.first.after.volume());
  EXPECT_LT(mortises.first.after.volume(), mortises.first.before.volume());
  const auto value = std::ranges::find(longer.numbers, "tenon length", &joinery::JointValue::name);
  ASSERT_NE(value, longer.numbers.end());
  EXPECT_DOUBLE_EQ(value->value, 35);
  EXPECT_TRUE(value->given);
  joint.numbers = {{"tenon_length", "no_such_thing"}};
  EXPECT_FALSE(joinery::tryJoint(file, joint, "", live));
}

TEST(Proposals, PartsApartHaveNone) {
  ModelText text;
  text.part("one", {"x", 0, 600}, {"y", 0, 60}, {"z", 0, 24})
      .part("other", {"x", 0, 600}, {"y", 200, 60}, {"z", 0, 24});
  EXPECT_TRUE(kindsFor(text).empty());
}

/// Takes all joints out of a document and its descriptions.
void withoutJoints(ordered_json& json) {
  json.erase("joints");
  if (!json.contains("assemblies")) return;
  for (auto& description : json["assemblies"]) description.erase("joints");
}

TEST(Proposals, JoinAStarterAgainWhoseJointsWereTakenOut) {
  for (const joinery::Starter& starter : builtInStarters()) {
    if (starter.name != "bookcase" && starter.name != "bench" && starter.name != "wall_shelf" &&
        starter.name != "coffee_table" && starter.name != "panel_door") {
      continue;
    }
    SCOPED_TRACE(starter.name);
    ordered_json json = ordered_json::parse(starterFile(starter).text());
    withoutJoints(json);
    ModelFile file = fileOf(json);
    LiveFit live;
    const auto proposals = joinery::joinAllThatMeet(file, live);
    ASSERT_TRUE(proposals) << proposals.error().line();
    EXPECT_FALSE(proposals->empty());
    for (const JointProposal& one : *proposals) ASSERT_TRUE(joinery::addJoint(file, one.joint));
    const auto fit = joinery::dryFit(file.model(), joinery::Basis::drawn);
    ASSERT_TRUE(fit) << fit.error().line();
    for (const joinery::Finding& finding : fit->findings) {
      EXPECT_NE(finding.severity, joinery::Severity::error) << finding.text;
    }
    EXPECT_TRUE(joinery::openMeetings(fit->piece).empty());
  }
}

}  // namespace
}  // namespace dryfit::test

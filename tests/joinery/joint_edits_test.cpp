// A joint is changed in place: its numbers, its kind, its name, its mates; what is taken back
// leaves no trace.

#include "joinery/file/joint_edits.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <set>

#include "joinery/file/part_edits.h"
#include "joinery/joints/evaluate.h"
#include "joinery/joints/joint_kinds.h"
#include "joinery/joints/rule_value.h"
#include "tests/support/joint_bench.h"
#include "tests/support/random_answers.h"

namespace dryfit::test {
namespace {

using joinery::Basis;
using joinery::Joint;
using joinery::JointId;
using joinery::ModelFile;
using joinery::Parameter;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

/// Does this with every joint of every starter; of those that one entry makes, with the first.
template <class Work>
void withEveryJoint(const Work& work) {
  for (const joinery::Starter& starter : builtInStarters()) {
    const ModelFile file = starterFile(starter);
    std::set<std::string> seen;
    for (const Joint& joint : file.model().joints) {
      if (!seen.insert(file.authoredPlace("joints", joint.name)).second) continue;
      SCOPED_TRACE(starter.name + ": " + joint.name);
      // Described in a file of its own, which no edit of this one touches.
      ModelFile noted = file;
      if (!joinery::setJointText(noted, joint.name, "note", "x")) continue;
      work(file, joint);
    }
  }
}

/// Two rails of one frame in their stiles.
ModelFile frame() {
  ModelText text;
  text.part("left_stile", {"z", 0, 700}, {"x", 0, 60}, {"y", 0, 24})
      .part("right_stile", {"z", 0, 700}, {"x", 460, 60}, {"y", 0, 24})
      .part("rail", {"x", 60, 400}, {"z", 300, 70}, {"y", 0, 24})
      .joint("rail_left", {{"kind", "blind-mortise-tenon"},
                           {"tenon", "rail"},
                           {"mortise", "left_stile"},
                           {"tenon_length", "40"},
                           {"bottom_clearance", 3}})
      .joint("rail_right",
             {{"kind", "blind-mortise-tenon"}, {"tenon", "rail"}, {"mortise", "right_stile"}});
  return ModelFile::parse(text.json().dump(), "frame").value();
}

TEST(JointEdits, ANumberThatIsSetAndTakenAwayLeavesNoTrace) {
  int tried = 0;
  withEveryJoint([&](const ModelFile& whole, const Joint& joint) {
    ModelFile file = whole;
    for (const Parameter& parameter : joinery::jointKindNamed(joint.kind)->parameters()) {
      const std::string key(parameter.name);
      const std::string had = joinery::jointText(file, joint.name, key);
      const bool word = parameter.type == Parameter::Type::word;
      const std::string text = word ? std::string(parameter.words.front()) : "7";
      ASSERT_TRUE(joinery::setJointText(file, joint.name, key, text)) << key;
      EXPECT_EQ(joinery::jointText(file, joint.name, key), text);
      ASSERT_TRUE(joinery::setJointText(file, joint.name, key, had)) << key;
      ++tried;
      ASSERT_EQ(file.text(), whole.text()) << key;
    }
  });
  EXPECT_GT(tried, 500);
}

TEST(JointEdits, AKindChangedAndChangedBackLosesOnlyWhatWasTold) {
  withEveryJoint([&](const ModelFile& whole, const Joint& joint) {
    for (const auto& kind : joinery::jointKinds()) {
      ModelFile file = whole;
      const auto gone = joinery::setJointKind(file, joint.name, std::string(kind->name()));
      if (!gone) {
        EXPECT_EQ(file.text(), whole.text()) << kind->name();
        continue;
      }
      const auto back = joinery::setJointKind(file, joint.name, joint.kind);
      // One entry may have come to stand for other joints than before.
      if (!back) continue;
      EXPECT_TRUE(back->empty());
      ModelFile without = whole;
      for (const std::string& key : *gone) {
        ASSERT_TRUE(joinery::setJointText(without, joint.name, key, ""));
      }
      EXPECT_EQ(file.text(), without.text()) << kind->name();
    }
  });
}

TEST(JointEdits, ANewNameIsTheOnlyThingThatChanges) {
  withEveryJoint([&](const ModelFile& whole, const Joint& joint) {
    ModelFile file = whole;
    const std::string place = file.authoredPlace("joints", joint.name);
    const std::string old = place.substr(place.rfind('.') + 1);
    const std::string name = joinery::freeName(file, "known_by_another_name");
    ASSERT_TRUE(joinery::renameJoint(file, joint.name, name));
    EXPECT_EQ(file.model().joints.size(), whole.model().joints.size());
    const std::size_t at = joint.name.rfind('.') + 1;
    const std::string now = joint.name.substr(0, at) + name + joint.name.substr(at + old.size());
    ASSERT_TRUE(joinery::renameJoint(file, now, old)) << now;
    EXPECT_EQ(file.text(), whole.text());
  });
}

TEST(JointEdits, MatesThatChangeRolesTwiceAreAsBefore) {
  int swapped = 0;
  withEveryJoint([&](const ModelFile& whole, const Joint& joint) {
    ModelFile file = whole;
    const auto done = joinery::swapMates(file, joint.name);
    if (!joinery::canSwapMates(whole, joint.name)) {
      EXPECT_FALSE(done);
    }
    if (!done) {
      EXPECT_EQ(file.text(), whole.text());
      return;
    }
    ++swapped;
    EXPECT_NE(file.text(), whole.text());
    const auto back = joinery::swapMates(file, joint.name);
    if (back) {
      EXPECT_EQ(file.text(), whole.text());
    }
  });
  EXPECT_GT(swapped, 50);
}

TEST(JointEdits, TheNewKindKeepsTheNumbersThatItKnows) {
  ModelFile file = frame();
  const auto gone = joinery::setJointKind(file, "rail_left", "through-mortise-tenon");
  ASSERT_TRUE(gone);
  const Joint& joint = file.model().joints.front();
  EXPECT_EQ(joint.kind, "through-mortise-tenon");
  EXPECT_EQ(joinery::jointText(file, "rail_left", "tenon_length"), "40");
  EXPECT_EQ(joint.mates[1].parts, std::vector<std::string>{"left_stile"});
  const auto dowels = joinery::setJointKind(file, "rail_left", "dowels");
  ASSERT_TRUE(dowels);
  EXPECT_THAT(*dowels, ::testing::Contains("tenon_length"));
  EXPECT_EQ(joinery::jointText(file, "rail_left", "tenon_length"), "");
}

TEST(JointEdits, AMarkOfAJointedPartFollowsTheJointsName) {
  ModelFile file = frame();
  joinery::Mark mark{"rail", joinery::MarkState::jointed, {480, 70, 24}, {400, 70, 24}, {}};
  mark.features.push_back({"rail_left", "tenon", {{-40, 10, 8}, {0, 60, 16}}});
  ASSERT_TRUE(file.setMark(mark));
  ASSERT_TRUE(joinery::renameJoint(file, "rail_left", "lower_left"));
  ASSERT_EQ(file.model().marks.size(), 1U);
  EXPECT_EQ(file.model().marks[0].features[0].joint, "lower_left");
}

TEST(JointEdits, WhatCannotBeIsRefusedAndTellsWhatCould) {
  ModelFile file = frame();
  const std::string before = file.text();
  const auto refused = [&](const auto& done, const char* words) {
    ASSERT_FALSE(done);
    EXPECT_THAT(done.error().line(), HasSubstr(words));
    EXPECT_EQ(file.text(), before);
  };
  refused(joinery::setJointText(file, "rail_left", "tenon_lenght", "3"), "tenon_length");
  refused(joinery::setJointText(file, "rail_lefd", "note", "3"), "rail_left");
  refused(joinery::setJointText(file, "rail_left", "tenon_length", "3 +"), "tenon_length");
  refused(joinery::setJointKind(file, "rail_left", "dowel"), "dowels");
  refused(joinery::renameJoint(file, "rail_left", "rail_right"), "taken");
  refused(joinery::renameJoint(file, "rail_left", "Rail Left"), "Rail Left");
}

TEST(JointEdits, TheRulesNumberIsWhatStandsThereWithoutAnEntry) {
  ModelFile file = frame();
  const auto written = joinery::evaluate(file.model(), Basis::drawn).value();
  const auto byRule = joinery::valueByRule(written, JointId(0), "tenon_length");
  ASSERT_TRUE(byRule);
  EXPECT_FALSE(byRule->given);
  ASSERT_TRUE(joinery::setJointText(file, "rail_left", "tenon_length", ""));
  const auto bare = joinery::evaluate(file.model(), Basis::drawn).value();
  const auto left = joinery::valueByRule(bare, JointId(0), "tenon_length");
  ASSERT_TRUE(left);
  EXPECT_EQ(*byRule, *left);
  EXPECT_FALSE(joinery::valueByRule(bare, JointId(0), "no_such_number"));
}

}  // namespace
}  // namespace dryfit::test

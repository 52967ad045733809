// What every kind of joint must keep, on parts of random size.

#include <gtest/gtest.h>

#include <random>

#include "joinery/joints/joint_kind.h"
#include "tests/support/joint_scenes.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::test {
namespace {

const int kRounds = repetitions(6);

class EveryJoint : public testing::TestWithParam<std::string> {
 protected:
  EveryJoint() : random_(seed()) {}
  [[nodiscard]] double angle(double most) {
    return std::uniform_real_distribution(-most, most)(random_);
  }
  void expectNoSharedWood(const JointScene& scene) {
    const joinery::Piece piece = pieceOf(scene.text);
    std::string who;
    EXPECT_EQ(sharedWood(piece, who), 0) << who << "seed " << seed() << "\n"
                                         << scene.text.json().dump(2);
  }
  std::mt19937_64 random_;
};

TEST_P(EveryJoint, LeavesNoWoodShared) {
  for (int i = 0; i < kRounds && !HasFailure(); ++i) {
    expectNoSharedWood(randomScene(GetParam(), random_));
  }
}

TEST_P(EveryJoint, LeavesNoWoodSharedWhenThePieceIsTurned) {
  for (int i = 0; i < kRounds && !HasFailure(); ++i) {
    JointScene scene = randomScene(GetParam(), random_);
    const std::string axis(1, "xyz"[i % 3]);
    scene.text.turnAll(axis, {angle(500), angle(500), angle(500)}, angle(180));
    expectNoSharedWood(scene);
  }
}

TEST_P(EveryJoint, FollowsAMateTurnedInItsOwnFace) {
  for (int i = 0; i < kRounds && !HasFailure(); ++i) {
    JointScene scene = randomScene(GetParam(), random_);
    if (scene.kind == "rebate" || scene.kind == "panel-groove") {
      // The other members would no longer meet this one.
      const char* const joint = scene.kind == "rebate" ? "rebated" : "frame";
      nlohmann::ordered_json only = scene.text.json()["joints"].front();
      only[joint] = {scene.second};
      scene.text.joint(scene.text.json()["joints"].begin().key(), only);
    }
    scene.text.turn(scene.second, scene.square, scene.at, angle(7));
    const joinery::Piece piece = pieceOf(scene.text);
    std::vector<kernel::Solid> solids;
    for (const joinery::PartId id : piece.joints.front().mates) {
      const auto& part = piece.parts[id.index()];
      solids.push_back(solidOf(part).placed(part.frame));
    }
    ASSERT_EQ(solids.size(), 2U);
    const auto shared = kernel::overlap(solids[0], solids[1]);
    ASSERT_TRUE(shared);
    EXPECT_EQ(shared->volume, 0) << "seed " << seed() << "\n" << scene.text.json().dump(2);
  }
}

TEST_P(EveryJoint, FitsItsShoulderToASlantingMate) {
  if (randomScene(GetParam(), random_).slanting.empty()) GTEST_SKIP() << "needs parallel faces";
  for (int i = 0; i < kRounds && !HasFailure(); ++i) {
    JointScene scene = randomScene(GetParam(), random_);
    scene.text.turn(scene.second, scene.slanting[i % scene.slanting.size()], scene.at, angle(7));
    expectNoSharedWood(scene);
    const joinery::Piece piece = pieceOf(scene.text);
    EXPECT_EQ(piece.joints.front().gap, 0);
    std::vector<kernel::Solid> solids;
    for (const auto& part : piece.parts) solids.push_back(solidOf(part).placed(part.frame));
    EXPECT_LT(*kernel::distance(solids[0], solids[1]), 1e-6) << "the shoulder does not touch";
  }
}

TEST_P(EveryJoint, GivesBackTheBlanksWhenItIsTakenAway) {
  JointScene scene = randomScene(GetParam(), random_);
  scene.text.withoutJoints();
  for (const joinery::PlacedPart& part : pieceOf(scene.text).parts) {
    EXPECT_TRUE(part.features.empty());
    EXPECT_NEAR(solidOf(part).volume(), part.blank().volume(), 1e-6);
  }
}

TEST_P(EveryJoint, LeavesValidSolidsInOneLump) {
  for (int i = 0; i < kRounds; ++i) {
    const JointScene scene = randomScene(GetParam(), random_);
    for (const joinery::PlacedPart& part : pieceOf(scene.text).parts) {
      const kernel::Solid solid = solidOf(part);
      EXPECT_TRUE(kernel::validate(solid));
      EXPECT_EQ(solid.topology().solids, 1) << "seed " << seed() << "\n"
                                            << scene.text.json().dump(2);
    }
  }
}

TEST_P(EveryJoint, IsTheSameWhereverThePieceStands) {
  for (int i = 0; i < kRounds; ++i) {
    JointScene scene = randomScene(GetParam(), random_);
    const joinery::Piece before = pieceOf(scene.text);
    scene.text.turnAll("y", {angle(300), 0, 10}, angle(180));
    const joinery::Piece after = pieceOf(scene.text);
    for (std::size_t j = 0; j < before.joints.front().values.size(); ++j) {
      EXPECT_NEAR(before.joints.front().values[j].value, after.joints.front().values[j].value,
                  1e-9);
    }
    for (std::size_t j = 0; j < before.parts.size(); ++j) {
      EXPECT_NEAR(solidOf(before.parts[j]).volume(), solidOf(after.parts[j]).volume(), 1e-4);
    }
  }
}

// A feature's extent is what a drawing dimensions: it must be the cut's own wood, no over-run.
TEST_P(EveryJoint, StatesExtentsThatLieInThePart) {
  for (int i = 0; i < kRounds; ++i) {
    for (const joinery::PlacedPart& part : pieceOf(randomScene(GetParam(), random_).text).parts) {
      const kernel::Box3 overall = part.overall().grown(1e-9);
      for (const joinery::Feature& f : part.features) {
        EXPECT_EQ(f.extent.united(overall), overall) << nameOf(f.purpose);
        EXPECT_FALSE(f.extent.empty()) << nameOf(f.purpose);
      }
    }
  }
}

std::string nameOfKind(const testing::TestParamInfo<std::string>& info) {
  std::string name = info.param;
  std::erase(name, '-');
  return name;
}

INSTANTIATE_TEST_SUITE_P(Kinds, EveryJoint, testing::ValuesIn(sceneKinds()), nameOfKind);

}  // namespace
}  // namespace dryfit::test

// What a rule reads along a part whose ends slant, held against the solids themselves.

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "joinery/piece/true_lengths.h"
#include "kernel/solid.h"
#include "tests/support/joint_bench.h"
#include "tests/support/joint_scenes.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::test {
namespace {

using joinery::PlacedPart;
using joinery::ShoulderLines;
using joinery::Stage;

/// The part with its shoulders, but without tenons and cuts.
kernel::Solid shouldersOf(PlacedPart part) {
  std::erase_if(part.features, [](const joinery::Feature& f) {
    return f.stage == Stage::insert || f.stage == Stage::cut;
  });
  return solidOf(part);
}

/// How far the wood reaches along one long edge, by the solid: a stick 0.05 thick in that corner.
kernel::Box3 woodAlong(const kernel::Solid& solid, const PlacedPart& part, bool farWidth,
                       bool farThickness) {
  constexpr double kStick = 0.05;
  kernel::Box3 stick{{-1000, 0, 0}, {part.size.x + 1000, kStick, kStick}};
  if (farWidth) {
    stick.min.y = part.size.y - kStick;
    stick.max.y = part.size.y;
  }
  if (farThickness) {
    stick.min.z = part.size.z - kStick;
    stick.max.z = part.size.z;
  }
  const auto shared = kernel::overlap(solid, *kernel::makeBox(stick));
  EXPECT_TRUE(shared) << shared.error().line();
  return shared ? shared->bounds : kernel::Box3{};
}

void expectAsTheSolid(const PlacedPart& part, const std::string& model) {
  const ShoulderLines lines = joinery::shoulderLines(part);
  const kernel::Solid solid = shouldersOf(part);
  for (const bool farWidth : {false, true}) {
    for (const bool farThickness : {false, true}) {
      const kernel::Box3 wood = woodAlong(solid, part, farWidth, farThickness);
      const joinery::LongEdge& edge = lines.at(farWidth, farThickness);
      EXPECT_NEAR(edge.lo, wood.min.x, 2e-2) << model;
      EXPECT_NEAR(edge.hi, wood.max.x, 2e-2) << model;
    }
  }
}

TEST(ShoulderLines, AreWhereTheSolidEndsOnRandomLeaningParts) {
  std::mt19937_64 random(seed());
  std::uniform_real_distribution<double> lean(-12, 12);
  int leaning = 0;
  for (int i = 0; i < repetitions(60); ++i) {
    for (const char* kind : {"blind-mortise-tenon", "through-mortise-tenon", "butt"}) {
      JointScene scene = randomScene(kind, random);
      if (scene.slanting.empty()) continue;
      scene.text.turn(scene.second, scene.slanting[i % scene.slanting.size()], scene.at,
                      lean(random));
      for (const PlacedPart& part : pieceOf(scene.text).parts) {
        expectAsTheSolid(part, scene.text.json().dump(2));
        leaning += joinery::shoulderLines(part).isSquare() ? 0 : 1;
      }
      if (HasFailure()) return;
    }
  }
  EXPECT_GT(leaning, 0);
}

/// A stretcher between two posts that lean apart by 2 `lean` degrees, `low` mm lower.
PlacedPart stretcherBetweenLeaningPosts(double lean, double low) {
  ModelText text;
  text.part("left", {"z", 0, 600}, {"x", 0, 60}, {"y", 0, 40});
  text.part("right", {"z", 0, 600}, {"x", 400, 60}, {"y", 0, 40});
  text.part("rail", {"x", 60, 340}, {"z", 300 - low, 80}, {"y", 0, 40});
  text.turn("left", "y", {60, 0, 600}, lean);
  text.turn("right", "y", {400, 0, 600}, -lean);
  text.joint("a", {{"kind", "blind-mortise-tenon"}, {"tenon", "rail"}, {"mortise", "left"}});
  text.joint("b", {{"kind", "blind-mortise-tenon"}, {"tenon", "rail"}, {"mortise", "right"}});
  return partNamed(pieceOf(text), "rail");
}

TEST(ShoulderLines, OfAStretcherFollowTheLean) {
  // Closed form: between posts that lean outward by a, the clear width at a depth d below their
  // pivots, 340 apart, is 340 + 2 d tan a.
  const double lean = 6, slope = std::tan(lean * 3.14159265358979 / 180);
  for (const double low : {0.0, 80.0, 150.0}) {
    const ShoulderLines lines = joinery::shoulderLines(stretcherBetweenLeaningPosts(lean, low));
    const double top = 340 + 2 * (220 + low) * slope, bottom = 340 + 2 * (300 + low) * slope;
    EXPECT_NEAR(lines.longest(), std::fmax(top, bottom), 1e-6) << low;
    EXPECT_NEAR(lines.shortest(), std::fmin(top, bottom), 1e-6) << low;
    // Both ends are longer at the lower edge, the near one in width.
    EXPECT_NEAR(lines.ends[0].acrossWidth, -lean, 1e-9);
    EXPECT_NEAR(lines.ends[1].acrossWidth, -lean, 1e-9);
    EXPECT_EQ(lines.ends[0].acrossThickness, 0);
  }
}

TEST(ShoulderLines, OfSquareWorkAreTheBlank) {
  std::mt19937_64 random(seed());
  for (const std::string& kind : sceneKinds()) {
    for (const PlacedPart& part : pieceOf(randomScene(kind, random).text).parts) {
      const ShoulderLines lines = joinery::shoulderLines(part);
      EXPECT_TRUE(lines.isSquare()) << kind;
      // Only the field of a panel with a worked edge ends before the blank does.
      const bool setBack = std::ranges::any_of(
          part.features, [](const joinery::Feature& f) { return f.stage == Stage::shape; });
      EXPECT_TRUE(!setBack || kind == "panel-groove");
      if (setBack) continue;
      EXPECT_EQ(lines.longest(), part.size.x);
      EXPECT_EQ(lines.shortest(), part.size.x);
    }
  }
}

}  // namespace
}  // namespace dryfit::test

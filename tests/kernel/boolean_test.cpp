#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <thread>

#include "kernel/solid.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::kernel {
namespace {

using test::randomBoxIn;

Solid box(Point3 min, Point3 max) {
  return makeBox({min, max}).value();
}

void expectVolume(const Solid& solid, double expected) {
  EXPECT_NEAR(solid.volume(), expected, 1e-9 * std::fabs(expected));
}

const Box3 kRail{{0, 0, 0}, {400, 60, 22}};

/// A random rail, holed and notched, for the laws.
Solid randomRail(std::mt19937_64& random) {
  std::vector<Solid> tools;
  for (int i = 0; i < 3; ++i) tools.push_back(makeBox(randomBoxIn(random, kRail)).value());
  return cut(makeBox(kRail).value(), tools).value();
}

/// A box square to the rail or turned, which shares some space with it.
Solid randomTool(std::mt19937_64& random) {
  const Solid tool = makeBox(randomBoxIn(random, kRail)).value();
  if (random() % 2) return tool;
  const Point3 c = tool.centroid();
  const Vec3 direction = test::randomFrame(random).x;
  return tool.placed(Frame::rotation(c, direction, Angle::degrees(double(random() % 60))));
}

TEST(BlindMortise, AddsFiveFacesAndTakesItsOwnVolume) {
  const Solid leg = box({0, 0, 0}, {50, 50, 700});
  const std::vector<Solid> mortise{box({17, -1, 600}, {33, 30, 650})};
  const Solid result = cut(leg, mortise).value();
  expectVolume(result, 50.0 * 50 * 700 - 16.0 * 30 * 50);
  // Six faces, one of them with a hole, and four walls and a floor; 12 + 12 edges, 8 + 8 corners.
  EXPECT_EQ(result.topology(), (Topology{1, 1, 11, 24, 16}));
  EXPECT_EQ(result.bounds(), leg.bounds());
}

TEST(ThroughMortise, AddsFourFaces) {
  const std::vector<Solid> mortise{box({17, -1, 600}, {33, 51, 650})};
  const Solid result = cut(box({0, 0, 0}, {50, 50, 700}), mortise).value();
  EXPECT_EQ(result.topology(), (Topology{1, 1, 10, 24, 16}));
}

TEST(BoredHole, HasTheVolumeOfACylinder) {
  const std::vector<Solid> drill{
      makeCylinder({25, 25, -1}, {0, 0, 1}, Length::mm(4), Length::mm(31)).value()};
  const Solid result = cut(box({0, 0, 0}, {50, 50, 100}), drill).value();
  expectVolume(result, 50.0 * 50 * 100 - std::numbers::pi * 16 * 30);
  EXPECT_EQ(result.topology().faces, 8);
}

TEST(Tenon, FlushWithTheRailMergesIntoItsFaces) {
  // A bare-faced tenon: flush below and behind, so only two shoulders show.
  const std::vector<Solid> tenon{box({400, 0, 0}, {430, 40, 15})};
  const Solid result = fuse(box(kRail.min, kRail.max), tenon).value();
  expectVolume(result, kRail.volume() + 30.0 * 40 * 15);
  // An L-shaped shoulder and four faces of the tenon, of which two are the rail's own: 6 - 1 + 1
  // + 3.
  EXPECT_EQ(result.topology(), (Topology{1, 1, 9, 21, 14}));
}

TEST(Fuse, OfOverlappingBlocksCountsTheSharedWoodOnce) {
  const std::vector<Solid> tools{box({50, 50, 50}, {150, 150, 150}),
                                 box({90, 90, 90}, {200, 110, 110})};
  const Solid result = fuse(box({0, 0, 0}, {100, 100, 100}), tools).value();
  // |A|+|B|+|C| - |AB| - |AC| - |BC| + |ABC|
  expectVolume(result, 1e6 + 1e6 + 110.0 * 20 * 20 - 125000 - 1000 - 60.0 * 20 * 20 + 1000);
}

TEST(Fuse, OfBlocksFaceToFaceIsOneBoxAgain) {
  const std::vector<Solid> tools{box({100, 0, 0}, {150, 20, 30}), box({150, 0, 0}, {300, 20, 30})};
  const Solid result = fuse(box({0, 0, 0}, {100, 20, 30}), tools).value();
  EXPECT_EQ(result.topology(), (Topology{1, 1, 6, 12, 8}));
  EXPECT_EQ(result.bounds(), (Box3{{0, 0, 0}, {300, 20, 30}}));
}

TEST(Fuse, OfBlocksApartIsTwoLumps) {
  const std::vector<Solid> tools{box({200, 0, 0}, {250, 20, 30})};
  EXPECT_EQ(fuse(box({0, 0, 0}, {100, 20, 30}), tools).value().topology().solids, 2);
}

TEST(Cut, ThroughTheMiddleLeavesTwoLumps) {
  const std::vector<Solid> saw{box({198, -1, -1}, {202, 61, 23})};
  const Solid result = cut(box(kRail.min, kRail.max), saw).value();
  EXPECT_EQ(result.topology(), (Topology{2, 2, 12, 24, 16}));
  expectVolume(result, 396.0 * 60 * 22);
  // And such a part can be cut again.
  const std::vector<Solid> both{box({100, 20, 10}, {300, 40, 23})};
  expectVolume(cut(result, both).value(), 396.0 * 60 * 22 - 196.0 * 20 * 12);
}

TEST(Cut, ThatSwallowsThePartLeavesNothing) {
  const Solid rail = box(kRail.min, kRail.max);
  for (const Solid& tool : {box({-1, -1, -1}, {401, 61, 23}), rail, box(kRail.min, kRail.max)}) {
    const auto result = cut(rail, {&tool, 1});
    ASSERT_FALSE(result);
    EXPECT_EQ(result.error().code, ErrorCode::emptyResult);
  }
}

TEST(Cut, ThatMissesGivesTheSamePartBack) {
  const Solid rail = box(kRail.min, kRail.max);
  EXPECT_EQ(&cut(rail, {}).value().impl(), &rail.impl());
  const Solid beside = box({500, 0, 0}, {510, 10, 10});
  EXPECT_EQ(&cut(rail, {&beside, 1}).value().impl(), &rail.impl());
  const Solid touching = box({400, 10, 5}, {410, 20, 10});
  EXPECT_EQ(&cut(rail, {&touching, 1}).value().impl(), &rail.impl());
  // Its box meets the rail's, its wood does not: a block on edge past a corner.
  const Solid askew = box({-10, -10, -5}, {10, 10, 30})
                          .placed(Frame::rotation({}, {0, 0, 1}, Angle::degrees(45)))
                          .placed({{-9, -9, 0}, {1, 0, 0}, {0, 1, 0}, {0, 0, 1}});
  ASSERT_FALSE(askew.bounds().common(rail.bounds()).empty());
  EXPECT_EQ(&cut(rail, {&askew, 1}).value().impl(), &rail.impl());
}

TEST(Common, OfBodiesApartOrTouchingIsAnError) {
  const Solid rail = box(kRail.min, kRail.max);
  for (const Solid& other : {box({500, 0, 0}, {510, 10, 10}), box({400, 0, 0}, {410, 10, 10})}) {
    const auto result = common(rail, {&other, 1});
    ASSERT_FALSE(result);
    EXPECT_EQ(result.error().code, ErrorCode::emptyResult);
  }
}

TEST(Common, IsSharedWithTheUnionOfTheTools) {
  const std::vector<Solid> tools{box({0, 0, 0}, {10, 10, 10}), box({5, 0, 0}, {20, 10, 10})};
  const Solid result = common(box({-5, -5, -5}, {100, 5, 100}), tools).value();
  expectVolume(result, 20.0 * 5 * 10);
  EXPECT_EQ(result.topology().faces, 6);
}

TEST(Cut, LosesExactlyTheSharedWood) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(test::seed());
  for (int i = 0; i < test::repetitions(40); ++i) {
    SCOPED_TRACE(i);
    const Solid rail = randomRail(random);
    const Solid tool = randomTool(random);
    const auto less = cut(rail, {&tool, 1});
    const auto shared = common(rail, {&tool, 1});
    const double left = less ? less->volume() : 0;
    const double lost = shared ? shared->volume() : 0;
    EXPECT_NEAR(left + lost, rail.volume(), 1e-9 * rail.volume());
    EXPECT_NEAR(overlap(rail, tool).value().volume, lost, 1e-9 * rail.volume());
    // Joining obeys |A ∪ B| = |A| + |B| - |A ∩ B|.
    EXPECT_NEAR(fuse(rail, {&tool, 1}).value().volume(), rail.volume() + tool.volume() - lost,
                1e-9 * rail.volume());
  }
}

TEST(Cut, DoesNotDependOnTheOrderOfTheToolsNorOnBatching) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(test::seed());
  for (int i = 0; i < test::repetitions(15); ++i) {
    SCOPED_TRACE(i);
    const Solid rail = randomRail(random);
    std::vector<Solid> tools;
    for (int k = 0; k < 4; ++k) tools.push_back(randomTool(random));
    const auto batch = cut(rail, tools);
    std::reverse(tools.begin(), tools.end());
    const auto reversed = cut(rail, tools);
    Result<Solid> sequential = rail;
    for (const Solid& tool : tools) {
      if (sequential) sequential = cut(*sequential, {&tool, 1});
    }
    ASSERT_EQ(batch.has_value(), reversed.has_value());
    ASSERT_EQ(batch.has_value(), sequential.has_value());
    if (!batch) continue;
    EXPECT_NEAR(batch->volume(), reversed->volume(), 1e-9 * rail.volume());
    EXPECT_NEAR(batch->volume(), sequential->volume(), 1e-9 * rail.volume());
    EXPECT_EQ(batch->topology(), reversed->topology());
    EXPECT_EQ(batch->topology(), sequential->topology());
    // And a second pass finds nothing more to take.
    const auto twice = cut(*batch, tools);
    ASSERT_TRUE(twice) << twice.error().line();
    EXPECT_NEAR(twice->volume(), batch->volume(), 1e-9 * rail.volume());
    EXPECT_EQ(twice->topology(), batch->topology());
  }
}

TEST(Cut, IsTheSameWhereverTheWorkStands) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(test::seed());
  for (int i = 0; i < test::repetitions(20); ++i) {
    SCOPED_TRACE(i);
    const Solid rail = randomRail(random);
    const Solid tool = randomTool(random);
    const Frame frame = test::randomFrame(random);
    const Solid moved = tool.placed(frame);
    const auto here = cut(rail, {&tool, 1});
    const auto there = cut(rail.placed(frame), {&moved, 1});
    ASSERT_EQ(here.has_value(), there.has_value());
    if (!here) continue;
    EXPECT_NEAR(there->volume(), here->volume(), 1e-9 * here->volume());
    EXPECT_NEAR(there->area(), here->area(), 1e-9 * here->area());
    EXPECT_EQ(there->topology(), here->topology());
  }
}

TEST(Solids, MayBeCutAndMeasuredOnTwoThreadsAtOnce) {
  const Solid rail = box(kRail.min, kRail.max);
  std::vector<Solid> tools;
  for (int i = 0; i < 8; ++i)
    tools.push_back(box({10.0 + 40 * i, 20, -1}, {30.0 + 40 * i, 40, 15}));
  const auto work = [&](std::vector<double>& found) {
    for (int i = 0; i < test::repetitions(20); ++i) {
      const Solid result = cut(rail, tools).value();
      found.push_back(result.volume());
      found.push_back(result.area());
      found.push_back(overlap(rail, tools[0]).value().volume);
      found.push_back(rail.area());
      found.push_back(tools[1].bounds().volume());
    }
  };
  std::vector<double> a;
  std::vector<double> b;
  std::thread other(work, std::ref(b));
  work(a);
  other.join();
  EXPECT_EQ(a, b);
  for (std::size_t i = 0; i < a.size(); i += 5) {
    EXPECT_NEAR(a[i], kRail.volume() - 8 * 20.0 * 20 * 15, 1e-6);
  }
}

}  // namespace
}  // namespace dryfit::kernel

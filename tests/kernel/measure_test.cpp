#include <gtest/gtest.h>

#include <cmath>

#include "kernel/solid.h"
#include "kernel/tolerance.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::kernel {
namespace {

Solid box(Point3 min, Point3 max) {
  return makeBox({min, max}).value();
}

TEST(Overlap, IsTheSharedBoxOfTwoSquareParts) {
  const Overlap shared =
      overlap(box({0, 0, 0}, {100, 50, 20}), box({90, 10, -5}, {120, 30, 5})).value();
  EXPECT_NEAR(shared.volume, 10.0 * 20 * 5, 1e-9);
  EXPECT_NEAR((shared.centre - Point3{95, 20, 2.5}).norm(), 0, 1e-9);
  const Box3 expected{{90, 10, 0}, {100, 30, 5}};
  EXPECT_NEAR((shared.bounds.min - expected.min).norm(), 0, 1e-6);
  EXPECT_NEAR((shared.bounds.max - expected.max).norm(), 0, 1e-6);
}

TEST(Overlap, OfPartsThatTouchIsNone) {
  const Solid a = box({0, 0, 0}, {100, 50, 20});
  EXPECT_EQ(overlap(a, box({100, 0, 0}, {200, 50, 20})).value().volume, 0);
  EXPECT_EQ(overlap(a, box({100, 50, 20}, {200, 60, 30})).value().volume, 0);
  EXPECT_EQ(overlap(a, box({150, 0, 0}, {200, 50, 20})).value().volume, 0);
}

TEST(Overlap, OfATenonInItsExactMortiseIsNone) {
  const Solid mortise = box({17, -1, 600}, {33, 30, 650});
  const Solid leg = cut(box({0, 0, 0}, {50, 50, 700}), {&mortise, 1}).value();
  const Solid tenon = box({17, 0, 600}, {33, 30, 650});
  EXPECT_EQ(overlap(leg, tenon).value().volume, 0);
  const Solid proud = box({17, 0, 600}, {33, 30.5, 650});
  EXPECT_NEAR(overlap(leg, proud).value().volume, 16 * 0.5 * 50, 1e-6);
}

TEST(Overlap, BelowASawableSliverIsNone) {
  const Solid a = box({0, 0, 0}, {10, 10, 10});
  EXPECT_EQ(overlap(a, box({10 - 5e-5, 0, 0}, {20, 10, 10})).value().volume, 0);
  EXPECT_GT(overlap(a, box({10 - 5e-3, 0, 0}, {20, 10, 10})).value().volume, kSliverVolume);
}

TEST(Overlap, IsSymmetricAndOfAPartWithItselfIsThePart) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(test::seed());
  const Box3 rail{{0, 0, 0}, {400, 60, 22}};
  for (int i = 0; i < test::repetitions(40); ++i) {
    SCOPED_TRACE(i);
    const Solid tool = makeBox(test::randomBoxIn(random, rail)).value();
    const auto a = cut(makeBox(rail).value(), {&tool, 1});
    if (!a) continue;
    const Frame frame = Frame::rotation({200, 30, 11}, test::randomFrame(random).z,
                                        Angle::degrees(double(random() % 90)));
    const Solid b = a->placed(frame);
    const double ab = overlap(*a, b).value().volume;
    const double ba = overlap(b, *a).value().volume;
    EXPECT_NEAR(ab, ba, 1e-9 * a->volume());
    EXPECT_NEAR(overlap(*a, *a).value().volume, a->volume(), 1e-9 * a->volume());
    EXPECT_NEAR(overlap(b, b).value().volume, a->volume(), 1e-9 * a->volume());
  }
}

TEST(Distance, IsTheGapBetweenParts) {
  const Solid a = box({0, 0, 0}, {10, 10, 10});
  EXPECT_NEAR(distance(a, box({13, 0, 0}, {20, 10, 10})).value(), 3, 1e-9);
  EXPECT_NEAR(distance(a, box({13, 14, 0}, {20, 20, 10})).value(), 5, 1e-9);
  EXPECT_NEAR(distance(a, box({10, 0, 0}, {20, 10, 10})).value(), 0, 1e-9);
  EXPECT_NEAR(distance(a, box({5, 5, 5}, {20, 20, 20})).value(), 0, 1e-9);
  EXPECT_NEAR(distance(a, box({-5, -5, -5}, {20, 20, 20})).value(), 0, 1e-9);
}

TEST(Bounds, ReachToTheCurveAndNoFurther) {
  // A board with a hole near its edge: the hole may not move the box, nor tolerances grow it.
  const Solid drill = makeCylinder({50, 20, -1}, {0, 0, 1}, Length::mm(15), Length::mm(22)).value();
  const Solid board = cut(box({0, 0, 0}, {100, 50, 20}), {&drill, 1}).value();
  const Box3 b = board.bounds();
  EXPECT_NEAR((b.min - Point3{0, 0, 0}).norm(), 0, 1e-6);
  EXPECT_NEAR((b.max - Point3{100, 50, 20}).norm(), 0, 1e-6);
  // A round-ended bar: the box reaches exactly to the round.
  const Solid end = makeCylinder({100, 25, 0}, {0, 0, 1}, Length::mm(25), Length::mm(20)).value();
  const Solid bar = fuse(box({0, 0, 0}, {100, 50, 20}), {&end, 1}).value();
  EXPECT_NEAR(bar.bounds().max.x, 125, 1e-6);
}

}  // namespace
}  // namespace dryfit::kernel

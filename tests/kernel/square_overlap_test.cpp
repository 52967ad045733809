// Shared wood and gaps of square work, by box arithmetic, against the geometry library on the same
// shapes (which have forgotten that they are square work once they went through `solidFrom`).

#include <gtest/gtest.h>

#include <cmath>
#include <span>

#include "kernel/occt_bridge.h"
#include "kernel/recipe.h"
#include "kernel/tolerance.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"
#include "tests/support/square_pieces.h"

namespace dryfit::kernel {
namespace {

using test::block;

Solid forgetful(const Solid& solid) {
  return solidFrom(shapeOf(solid)).value();
}

/// One of the 24 ways a part can lie square to another, somewhere near it.
Frame randomSquareFrame(std::mt19937_64& random, double reach, double grid) {
  const auto quarters = [&] {
    return Angle::degrees(90 * std::uniform_int_distribution(0, 3)(random));
  };
  Frame frame = Frame::rotation({}, {0, 0, 1}, quarters())
                    .after(Frame::rotation({}, {1, 0, 0}, quarters()))
                    .after(Frame::rotation({}, {0, 0, 1}, quarters()));
  for (int axis = 0; axis < 3; ++axis) {
    const double to = std::uniform_real_distribution(-reach, reach)(random);
    frame.origin.set(axis, grid > 0 ? grid * std::round(to / grid) : to);
  }
  return frame;
}

void expectSameOverlap(const Overlap& a, const Overlap& b) {
  EXPECT_NEAR(a.volume, b.volume, 1e-9 * b.volume);
  if (a.volume == 0 || b.volume == 0) return;
  EXPECT_LE((a.centre - b.centre).norm(), 1e-6);
  EXPECT_LE((a.bounds.min - b.bounds.min).norm(), 2e-6);
  EXPECT_LE((a.bounds.max - b.bounds.max).norm(), 2e-6);
}

/// The shared wood as a solid.
void expectSameCommon(const Solid& a, const Solid& b) {
  const auto square = common(a, std::span(&b, 1));
  const Solid other = forgetful(b);
  const auto general = common(forgetful(a), std::span(&other, 1));
  ASSERT_EQ(square.has_value(), general.has_value());
  if (!square) return;
  EXPECT_NEAR(square->volume(), general->volume(), 1e-9 * general->volume());
  EXPECT_NEAR(square->area(), general->area(), 1e-9 * general->area());
  EXPECT_EQ(square->topology().solids, general->topology().solids);
  EXPECT_TRUE(validate(*square));
}

void expectPairsAgree(bool grid, bool turnedTogether, int count) {
  std::mt19937_64 random(test::seed());
  int met = 0;
  for (int i = 0; i < count && !testing::Test::HasFailure(); ++i) {
    SCOPED_TRACE("seed " + std::to_string(test::seed()) + ", pair " + std::to_string(i));
    auto a = build(test::randomSquareWork(random, grid, {2, 2}));
    auto b = build(test::randomSquareWork(random, grid, {2, 2}));
    const Frame between = randomSquareFrame(random, 50, grid ? 7 : 0);
    const Frame both = turnedTogether ? test::randomFrame(random) : Frame{};
    if (!a || !b) continue;
    const Solid here = a->placed(both);
    const Solid there = b->placed(both.after(between));
    const Overlap square = overlap(here, there).value();
    const Overlap general = overlap(forgetful(here), forgetful(there)).value();
    expectSameOverlap(square, general);
    expectSameCommon(here, there);
    expectSameOverlap(square, overlap(there, here).value());
    const double gap = distance(here, there).value();
    EXPECT_NEAR(gap, distance(forgetful(here), forgetful(there)).value(), 1e-6);
    EXPECT_NEAR(gap, distance(there, here).value(), 1e-9);
    EXPECT_TRUE(gap == 0 || square.volume == 0);
    met += square.volume > 0;
  }
  EXPECT_GT(met, count / 10);
  EXPECT_LT(met, count);
}

TEST(SquareOverlap, OffTheGridIsThatOfTheGeneralWay) {
  expectPairsAgree(false, false, test::repetitions(40));
}

TEST(SquareOverlap, OnAGridFullOfContactsIsThatOfTheGeneralWay) {
  expectPairsAgree(true, false, test::repetitions(40));
}

TEST(SquareOverlap, OfPartsTurnedTogetherIsThatOfTheGeneralWay) {
  expectPairsAgree(false, true, test::repetitions(20));
}

TEST(SquareOverlap, WithItselfIsAllOfIt) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(test::seed());
  for (int i = 0; i < test::repetitions(500); ++i) {
    const auto part = build(test::randomSquareWork(random, false, {2, 4}));
    if (!part) continue;
    const Solid moved = part->placed(test::randomFrame(random));
    const Overlap all = overlap(moved, moved).value();
    EXPECT_NEAR(all.volume, moved.volume(), 1e-9 * moved.volume());
    EXPECT_LE((all.centre - moved.centroid()).norm(), 1e-7);
    EXPECT_LE((all.bounds.min - moved.bounds().min).norm(), 1e-7);
    EXPECT_EQ(distance(moved, moved).value(), 0);
  }
}

/// A tenon of the given size in a mortise of 40 × 10 mm, 30 mm deep.
double tenonInMortise(double length, double thickness, double depth, bool general = false) {
  const Solid leg = build({block({0, 0, 0}, {60, 60, 400}),
                           {{Step::Kind::remove, {block({30, 25, 100}, {61, 35, 140})}}}})
                        .value();
  const Solid rail = build({block({60, 20, 90}, {500, 40, 150}),
                            {{Step::Kind::add,
                              {block({60 - depth, 30 - thickness / 2, 100},
                                     {61, 30 + thickness / 2, 100 + length})}}}})
                         .value();
  if (general) return overlap(forgetful(leg), forgetful(rail)).value().volume;
  return overlap(leg, rail).value().volume;
}

TEST(SquareOverlap, OfATenonThatFitsIsNone) {
  EXPECT_EQ(tenonInMortise(40, 10, 30), 0);
}

TEST(SquareOverlap, OfATenonTooThickIsTheExcess) {
  EXPECT_NEAR(tenonInMortise(40, 10.2, 30), 0.2 * 40 * 30, 1e-6);
}

TEST(SquareOverlap, OfATenonTooLargeByRoundingIsNone) {
  // A film all round, thinner than what counts as contact, though it sums to more than a sliver.
  const double film = kContact / 4;
  for (const bool general : {false, true}) {
    EXPECT_EQ(tenonInMortise(40 + film, 10 + 2 * film, 30 + film, general), 0);
    EXPECT_NEAR(tenonInMortise(40, 10 + 4 * kContact, 30, general), 4 * kContact * 40 * 30, 1e-6);
  }
}

TEST(SquareOverlap, OfFaceToFaceIsNoneAndTheirDistanceNothing) {
  const Solid a = build({block({0, 0, 0}, {1000, 1000, 20}), {}}).value();
  const Solid b = build({block({0, 0, 20}, {1000, 1000, 40}), {}}).value();
  EXPECT_EQ(overlap(a, b).value().volume, 0);
  EXPECT_EQ(distance(a, b).value(), 0);
}

TEST(SquareOverlap, InsideAHollowIsNoneAndTheDistanceIsTheGap) {
  const Solid box = build({block({0, 0, 0}, {50, 50, 50}),
                           {{Step::Kind::remove, {block({10, 10, 10}, {40, 40, 40})}}}})
                        .value();
  const Solid ball = build({block({20, 20, 17}, {30, 30, 25}), {}}).value();
  EXPECT_EQ(overlap(box, ball).value().volume, 0);
  EXPECT_EQ(distance(box, ball).value(), 7);
}

TEST(SquareOverlap, OfPartsOutOfSquareGoesTheGeneralWay) {
  const Solid a = build({block({0, 0, 0}, {20, 20, 20}), {}}).value();
  const Solid b = a.placed(Frame::rotation({10, 10, 10}, {0, 0, 1}, Angle::degrees(45)));
  // Two squares of side s turned by 45° share a regular octagon of area 2 (√2 - 1) s².
  EXPECT_NEAR(overlap(a, b).value().volume, 2 * (std::sqrt(2) - 1) * 400 * 20, 1e-6);
}

}  // namespace
}  // namespace dryfit::kernel

#include "kernel/src/view_lines.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "kernel/src/intervals.h"
#include "kernel/tolerance.h"

namespace dryfit::kernel {
namespace {

constexpr double kPi = std::numbers::pi;

TEST(Stretches, ThatMeetBecomeOne) {
  EXPECT_EQ(united({{5, 7}, {0, 2}, {2.00001, 4}, {1, 3}}, 1e-4),
            (std::vector<Interval>{{0, 4}, {5, 7}}));
}

TEST(Stretches, UncoveredLeaveNoCrumbs) {
  EXPECT_EQ(uncovered({{0, 10}}, {{2, 3}, {5, 20}}, 1e-4), (std::vector<Interval>{{0, 2}, {3, 5}}));
  EXPECT_TRUE(uncovered({{0, 10}}, {{0.00005, 9.99995}}, 1e-4).empty());
}

TEST(StraightLines, OverEachOtherAreDrawnOnceAndVisibleWins) {
  RawView raw;
  raw.segments = {{{0, 0}, {10, 0}, false},
                  {{4, 0}, {6, 0}, true},
                  {{6, 0}, {8, 0}, true},
                  {{8, 0}, {4, 0}, true},
                  {{10, 0}, {0, 0}, false}};
  EXPECT_EQ(cleaned(raw),
            (std::vector<ViewLine>{
                {{{4, 0}, {8, 0}}, true}, {{{0, 0}, {4, 0}}, false}, {{{8, 0}, {10, 0}}, false}}));
}

TEST(StraightLines, SideBySideOrApartStayTwo) {
  RawView raw;
  raw.segments = {{{0, 0}, {10, 0}}, {{0, 0.01}, {10, 0.01}}, {{10.01, 0}, {20, 0}}};
  EXPECT_EQ(cleaned(raw).size(), 3U);
}

TEST(StraightLines, OnASlantMergeToo) {
  RawView raw;
  for (int i = 0; i < 9; ++i) {
    raw.segments.push_back({{3.0 * i + 3, 1.0 * i + 1}, {3.0 * i, 1.0 * i}, true});
  }
  const auto lines = cleaned(raw);
  ASSERT_EQ(lines.size(), 1U);
  EXPECT_EQ(lines[0].points.front(), (Point2{0, 0}));
  EXPECT_NEAR(lines[0].points.back().x, 27, 1e-8);
}

TEST(StraightLines, ShorterThanContactAreDropped) {
  RawView raw;
  raw.segments = {{{0, 0}, {kContact / 2, 0}}};
  EXPECT_TRUE(cleaned(raw).empty());
}

TEST(RoundLines, HiddenUnderAVisibleHalfShowTheOtherHalfHidden) {
  RawView raw;
  raw.arcs = {{{5, 5}, 10, 10, 0, 0, 2 * kPi, false}, {{5, 5}, 10, 10, 0, -kPi / 2, kPi / 2, true}};
  const auto lines = cleaned(raw);
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_TRUE(lines[0].visible);
  for (const Point2& p : lines[0].points) EXPECT_GE(p.x, 5 - 1e-8);
  EXPECT_FALSE(lines[1].visible);
  for (const Point2& p : lines[1].points) EXPECT_LE(p.x, 5 + 1e-8);
}

TEST(RoundLines, InPiecesCloseToOneRound) {
  RawView raw;
  raw.arcs = {{{0, 0}, 10, 10, 0, 1, 3, true}, {{0, 0}, 10, 10, 0, 3, 1 + 2 * kPi, true}};
  const auto lines = cleaned(raw);
  ASSERT_EQ(lines.size(), 1U);
  EXPECT_EQ(lines[0].points.front(), lines[0].points.back());
}

TEST(RoundLines, OfAnEllipseKeepToItsCurve) {
  RawView raw;
  const double tilt = 0.4;
  raw.arcs = {{{1, 2}, 30, 12, tilt, 0, 2 * kPi, true}};
  const auto lines = cleaned(raw);
  ASSERT_EQ(lines.size(), 1U);
  for (const Point2& p : lines[0].points) {
    const double x = (p.x - 1) * std::cos(tilt) + (p.y - 2) * std::sin(tilt);
    const double y = -(p.x - 1) * std::sin(tilt) + (p.y - 2) * std::cos(tilt);
    EXPECT_NEAR(x * x / 900 + y * y / 144, 1, 1e-8);
  }
}

TEST(RoundLines, OfOneEllipseSeenFromBothSensesAreOne) {
  // The same ellipse with its major axis just over 0 and just under half a turn.
  RawView raw;
  raw.arcs = {{{0, 0}, 30, 12, 1e-9, 0.2, 1.2, true},
              {{0, 0}, 30, 12, kPi - 1e-9, 0.2 + kPi, 1.2 + kPi, false}};
  const auto lines = cleaned(raw);
  ASSERT_EQ(lines.size(), 1U);
  EXPECT_TRUE(lines[0].visible);
}

TEST(FreeCurves, DrawnTwiceAreKeptOnceAndVisible) {
  const std::vector<Point2> curve{{0, 0}, {1, 1}, {2, 4}, {3, 9}};
  RawView raw;
  raw.others = {{curve, false}, {{curve.rbegin(), curve.rend()}, true}, {{{0, 0}, {3, 9}}, false}};
  const auto lines = cleaned(raw);
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_EQ(lines[0], (ViewLine{curve, true}));
  EXPECT_FALSE(lines[1].visible);
}

}  // namespace
}  // namespace dryfit::kernel

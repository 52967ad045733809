#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "kernel/solid.h"
#include "tests/support/random_pieces.h"

namespace dryfit::kernel {
namespace {

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
constexpr double kInfinity = std::numeric_limits<double>::infinity();

/// Expects `actual` within a relative 1e-12 of `expected`, the accuracy that Solid states.
void expectSame(double actual, double expected) {
  EXPECT_NEAR(actual, expected, 1e-12 * std::fabs(expected));
}

void expectBox(const Box3& actual, const Box3& expected) {
  for (int i = 0; i < 3; ++i) {
    EXPECT_NEAR(actual.min[i], expected.min[i], 1e-6);
    EXPECT_NEAR(actual.max[i], expected.max[i], 1e-6);
  }
}

template <class T>
void expectBadDimension(const Result<T>& result) {
  ASSERT_FALSE(result);
  EXPECT_EQ(result.error().code, ErrorCode::badDimension);
  EXPECT_THAT(result.error().what, testing::Not(testing::IsEmpty()));
}

TEST(Box, HasTheVolumeAreaAndCornersItWasMadeOf) {
  const Box3 box{{10, -20, 30}, {56.7, 24.5, 51.25}};
  const Solid solid = makeBox(box).value();
  const Vec3 s = box.size();
  expectSame(solid.volume(), s.x * s.y * s.z);
  expectSame(solid.area(), 2 * (s.x * s.y + s.y * s.z + s.z * s.x));
  EXPECT_EQ(solid.bounds(), box);
  EXPECT_NEAR((solid.centroid() - box.centre()).norm(), 0, 1e-9);
  EXPECT_EQ(solid.topology(), (Topology{1, 1, 6, 12, 8}));
  EXPECT_TRUE(validate(solid));
}

TEST(Box, KeepsItsVolumeFarFromTheOrigin) {
  const Solid solid = makeBox({{90'000, 90'000, 90'000}, {90'018, 90'050, 90'600}}).value();
  expectSame(solid.volume(), 18.0 * 50 * 600);
}

TEST(Box, OfNoThicknessIsRefused) {
  expectBadDimension(makeBox({{0, 0, 0}, {10, 10, 0}}));
  expectBadDimension(makeBox({{0, 0, 0}, {10, -1, 10}}));
  expectBadDimension(makeBox({{0, 0, 0}, {10, 10, 1e-12}}));
}

TEST(Box, OfNoNumberIsRefused) {
  expectBadDimension(makeBox({{0, 0, kNaN}, {10, 10, 10}}));
  expectBadDimension(makeBox({{0, 0, 0}, {10, kInfinity, 10}}));
}

TEST(Box, LargerThanAnyWorkshopIsRefused) {
  expectBadDimension(makeBox({{0, 0, 0}, {10, 10, 1e6}}));
  expectBadDimension(makeBox({{-80'000, 0, 0}, {80'000, 10, 10}}));
}

TEST(Prism, HasTheShoelaceAreaTimesItsHeight) {
  // An L: 60 × 80 less 40 × 50, area 2800, perimeter 280.
  const std::vector<Point2> outline{{0, 0}, {60, 0}, {60, 30}, {20, 30}, {20, 80}, {0, 80}};
  const Solid solid = makePrism({}, outline, Length::mm(25)).value();
  expectSame(solid.volume(), 2800.0 * 25);
  expectSame(solid.area(), 2 * 2800.0 + 280 * 25);
  EXPECT_EQ(solid.bounds(), (Box3{{0, 0, 0}, {60, 80, 25}}));
  EXPECT_EQ(solid.topology(), (Topology{1, 1, 8, 18, 12}));
}

TEST(Prism, IsTheSameWhicheverWayItsOutlineRuns) {
  std::vector<Point2> outline{{0, 0}, {100, 10}, {90, 40}, {15, 35}};
  double twice = 0;  // the shoelace formula
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Point2 a = outline[i];
    const Point2 b = outline[(i + 1) % outline.size()];
    twice += a.x * b.y - b.x * a.y;
  }
  const Solid one = makePrism({}, outline, Length::mm(20)).value();
  std::reverse(outline.begin(), outline.end());
  const Solid other = makePrism({}, outline, Length::mm(20)).value();
  expectSame(one.volume(), twice / 2 * 20);
  expectSame(other.volume(), one.volume());
  expectBox(other.bounds(), one.bounds());
}

TEST(Prism, StandsInItsFrame) {
  // x of the outline along y, y along z: so the push goes along x.
  const Frame frame{{5, 6, 7}, {0, 1, 0}, {0, 0, 1}, {1, 0, 0}};
  const std::vector<Point2> triangle{{0, 0}, {30, 0}, {0, 40}};
  const Solid solid = makePrism(frame, triangle, Length::mm(10)).value();
  expectSame(solid.volume(), 6000);
  expectBox(solid.bounds(), {{5, 6, 7}, {15, 36, 47}});
}

TEST(Prism, DropsAPointOnAStraightRun) {
  const std::vector<Point2> outline{{0, 0}, {50, 0}, {100, 0}, {100, 20}, {0, 20}};
  EXPECT_EQ(makePrism({}, outline, Length::mm(5)).value().topology().faces, 6);
}

TEST(Prism, OverABadOutlineIsRefused) {
  const Length height = Length::mm(10);
  using Outline = std::vector<Point2>;
  expectBadDimension(makePrism({}, Outline{{0, 0}, {1, 0}}, height));
  expectBadDimension(makePrism({}, Outline{{0, 0}, {10, 0}, {20, 0}}, height));
  expectBadDimension(makePrism({}, Outline{{0, 0}, {10, 10}, {10, 0}, {0, 10}}, height));
  expectBadDimension(makePrism({}, Outline{{0, 0}, {10, 0}, {10, kNaN}}, height));
  expectBadDimension(makePrism({}, Outline{{0, 0}, {10, 0}, {10, 10}, {0, 0}}, height));
  // Two triangles that share a corner only.
  expectBadDimension(
      makePrism({}, Outline{{0, 0}, {10, 5}, {20, 0}, {20, 10}, {10, 5}, {0, 10}}, height));
}

TEST(Prism, OfNoHeightOrInASkewFrameIsRefused) {
  const std::vector<Point2> triangle{{0, 0}, {30, 0}, {0, 40}};
  expectBadDimension(makePrism({}, triangle, Length::mm(0)));
  expectBadDimension(makePrism({}, triangle, Length::mm(-5)));
  expectBadDimension(makePrism({}, triangle, Length::mm(kNaN)));
  Frame mirrored;
  mirrored.z = {0, 0, -1};
  expectBadDimension(makePrism(mirrored, triangle, Length::mm(10)));
}

TEST(Cylinder, HasTheClosedFormVolumeAndArea) {
  const double r = 6.25;
  const double h = 48.5;
  const Solid solid =
      makeCylinder({1, 2, 3}, Vec3{1, 1, 0}.unit(), Length::mm(r), Length::mm(h)).value();
  expectSame(solid.volume(), std::numbers::pi * r * r * h);
  expectSame(solid.area(), 2 * std::numbers::pi * r * (r + h));
  EXPECT_EQ(solid.topology().faces, 3);
}

TEST(Cylinder, HasTightBounds) {
  const Solid dowel = makeCylinder({10, 20, 30}, {0, 0, 1}, Length::mm(4), Length::mm(40)).value();
  expectBox(dowel.bounds(), {{6, 16, 30}, {14, 24, 70}});
  const Vec3 axis = Vec3{1, 2, 2}.unit();
  const Solid leaning = makeCylinder({}, axis, Length::mm(4), Length::mm(30)).value();
  // A disc of radius r with normal n reaches r·√(1 − nᵢ²) along axis i.
  const auto reach = [](double n) { return 4 * std::sqrt(1 - n * n); };
  const double a = reach(1.0 / 3);
  const double b = reach(2.0 / 3);
  expectBox(leaning.bounds(), {{-a, -b, -b}, {10 + a, 20 + b, 20 + b}});
}

TEST(Cylinder, WithABadRadiusHeightOrAxisIsRefused) {
  const Length one = Length::mm(1);
  expectBadDimension(makeCylinder({}, {0, 0, 1}, Length::mm(0), one));
  expectBadDimension(makeCylinder({}, {0, 0, 1}, one, Length::mm(-1)));
  expectBadDimension(makeCylinder({}, {0, 0, 1}, Length::mm(kInfinity), one));
  expectBadDimension(makeCylinder({}, {0, 0, 2}, one, one));
  expectBadDimension(makeCylinder({}, {0, 0, 0}, one, one));
  expectBadDimension(makeCylinder({kNaN, 0, 0}, {0, 0, 1}, one, one));
}

TEST(Placing, KeepsVolumeAndAreaAndTurnsTheCentroid) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(test::seed());
  const std::vector<Point2> outline{{0, 0}, {60, 0}, {60, 30}, {20, 30}, {20, 80}, {0, 80}};
  const Solid solid = makePrism({}, outline, Length::mm(25)).value();
  for (int i = 0; i < 50; ++i) {
    const Frame frame = test::randomFrame(random);
    const Solid moved = solid.placed(frame);
    EXPECT_EQ(moved.volume(), solid.volume());
    EXPECT_EQ(moved.area(), solid.area());
    EXPECT_NEAR((moved.centroid() - frame.place(solid.centroid())).norm(), 0, 1e-9);
    EXPECT_TRUE(validate(moved));
    // The corners land where the frame says, so the geometry moved with the numbers.
    Box3 expected = boundsOf(frame, {{0, 0, 0}, {60, 30, 25}});
    expected = expected.united(boundsOf(frame, {{0, 0, 0}, {20, 80, 25}}));
    expectBox(moved.bounds(), expected);
  }
}

TEST(Placing, ThereAndBackIsWhereItWas) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(test::seed());
  const Solid solid = makeBox({{1, 2, 3}, {40, 50, 60}}).value();
  for (int i = 0; i < 50; ++i) {
    const Frame frame = test::randomFrame(random);
    expectBox(solid.placed(frame).placed(frame.inverse()).bounds(), solid.bounds());
  }
}

}  // namespace
}  // namespace dryfit::kernel

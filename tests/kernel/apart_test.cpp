// How far faces, edges and corners are apart, worked out by hand beside it.

#include "kernel/apart.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <vector>

namespace dryfit::kernel {
namespace {

using Corners = std::vector<Point3>;
constexpr double kDegree = std::numbers::pi / 180;

/// A level face, seen from above a rectangle.
Corners level(double x, double y, double z, double length, double width) {
  return {{x, y, z}, {x + length, y, z}, {x + length, y + width, z}, {x, y + width, z}};
}

/// The same rectangle at the origin, turned up about the y axis.
Corners sloping(double length, double width, double degrees) {
  const double c = std::cos(degrees * kDegree), s = std::sin(degrees * kDegree);
  return {{0, 0, 0}, {length * c, 0, length * s}, {length * c, width, length * s}, {0, width, 0}};
}

TEST(Apart, FacesOverEachOtherAreApartByTheirHeight) {
  const auto apart = apartOf(level(0, 0, 0, 300, 200), level(50, 20, 35, 100, 100)).value();
  EXPECT_NEAR(apart.distance, 35, 1e-9);
  EXPECT_NEAR(apart.to.z - apart.from.z, 35, 1e-9);
  EXPECT_NEAR(apart.to.x - apart.from.x, 0, 1e-9);
  EXPECT_NEAR(apart.angle.value(), 0, 1e-12);
}

TEST(Apart, FacesBesideEachOtherAreApartByTheTriangleOfTheirGaps) {
  // 3 across, 4 back and 12 up: 13.
  const auto apart = apartOf(level(0, 0, 0, 10, 10), level(13, 14, 12, 5, 5)).value();
  EXPECT_NEAR(apart.distance, 13, 1e-9);
  EXPECT_NEAR(apart.to.x - apart.from.x, 3, 1e-9);
  EXPECT_NEAR(apart.to.y - apart.from.y, 4, 1e-9);
  EXPECT_NEAR(apart.to.z - apart.from.z, 12, 1e-9);
}

TEST(Apart, ASlopingFaceLiesAtItsSlope) {
  for (const double degrees : {5.0, 30.0, 45.0, 89.0, 90.0}) {
    const auto apart = apartOf(level(0, 0, 0, 300, 200), sloping(300, 200, degrees)).value();
    EXPECT_NEAR(apart.angle.value(), degrees * kDegree, 1e-9);
    EXPECT_NEAR(apart.distance, 0, 1e-9) << "they meet in an edge";
  }
  // Beyond upright it leans back: the angle is told as the smaller of the two.
  EXPECT_NEAR(apartOf(level(0, 0, 0, 3, 2), sloping(3, 2, 120)).value().angle.value(), 60 * kDegree,
              1e-9);
}

TEST(Apart, CornersHaveADistanceAndNoAngle) {
  const auto apart = apartOf(Corners{{0, 0, 0}}, Corners{{2, 3, 6}}).value();
  EXPECT_NEAR(apart.distance, 7, 1e-9) << "the diagonal of 2, 3 and 6";
  EXPECT_FALSE(apart.angle);
  EXPECT_FALSE(apartOf(Corners{{0, 0, 0}}, level(0, 0, 1, 5, 5)).value().angle);
}

TEST(Apart, AnEdgeLiesToAFaceAtItsOwnSlope) {
  const Corners edge{{0, 0, 10}, {40, 0, 10 + 40 * std::tan(20 * kDegree)}};
  EXPECT_NEAR(apartOf(level(0, 0, 0, 50, 50), edge).value().angle.value(), 20 * kDegree, 1e-9);
  EXPECT_NEAR(apartOf(edge, level(0, 0, 0, 50, 50)).value().distance, 10, 1e-9);
}

TEST(Apart, OfNothingIsRefused) {
  EXPECT_FALSE(apartOf(Corners{}, Corners{{0, 0, 0}}));
}

}  // namespace
}  // namespace dryfit::kernel

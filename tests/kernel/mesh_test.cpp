#include "kernel/mesh.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>

#include "kernel/recipe.h"
#include "kernel/square_work.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"
#include "tests/support/square_pieces.h"

namespace dryfit::kernel {
namespace {

/// By the divergence theorem: the sum of the signed tetrahedra over the triangles.
double meshVolume(const Mesh& mesh) {
  double six = 0;
  for (const auto& t : mesh.triangles) {
    const Vec3 a = mesh.points[t[0]] - mesh.points[0];
    const Vec3 b = mesh.points[t[1]] - mesh.points[0];
    const Vec3 c = mesh.points[t[2]] - mesh.points[0];
    six += a.dot(b.cross(c));
  }
  return six / 6;
}

TEST(Mesh, OfAPlaneFacedPartEnclosesExactlyItsWood) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(test::seed());
  for (int i = 0; i < test::repetitions(40); ++i) {
    SCOPED_TRACE(i);
    const auto part = buildGeneral(test::randomPiece(random, {.turned = true}));
    if (!part) continue;
    const Solid moved = part->placed(test::randomFrame(random));
    for (const Solid& solid : {*part, moved}) {
      const Mesh mesh = triangulate(solid).value();
      EXPECT_NEAR(meshVolume(mesh), solid.volume(), 1e-9 * solid.volume());
      ASSERT_EQ(mesh.faceOfTriangle.size(), mesh.triangles.size());
      std::map<int, int> perFace;
      for (int face : mesh.faceOfTriangle) ++perFace[face];
      EXPECT_EQ(static_cast<int>(perFace.size()), solid.topology().faces);
    }
  }
}

/// Every edge of a closed mesh runs once each way between the same two points.
bool isClosed(const Mesh& mesh) {
  std::map<std::array<double, 6>, int> ways;
  for (const auto& t : mesh.triangles) {
    for (int i = 0; i < 3; ++i) {
      const Point3 a = mesh.points[t[i]];
      const Point3 b = mesh.points[t[(i + 1) % 3]];
      ++ways[{a.x, a.y, a.z, b.x, b.y, b.z}];
      --ways[{b.x, b.y, b.z, a.x, a.y, a.z}];
    }
  }
  return std::all_of(ways.begin(), ways.end(), [](const auto& way) { return way.second == 0; });
}

/// Without regard to which way the triangles look: more than the solid's where two lie on each
/// other.
double meshArea(const Mesh& mesh) {
  double twice = 0;
  for (const auto& t : mesh.triangles) {
    const Vec3 side = mesh.points[t[1]] - mesh.points[t[0]];
    twice += side.cross(mesh.points[t[2]] - mesh.points[t[0]]).norm();
  }
  return twice / 2;
}

TEST(Mesh, OfSquareWorkHasNoCracksAndEnclosesExactlyItsWood) {
  std::mt19937_64 random(test::seed());
  int meshed = 0;
  const int count = test::repetitions(400);
  for (int i = 0; i < count; ++i) {
    SCOPED_TRACE("seed " + std::to_string(test::seed()) + ", part " + std::to_string(i));
    const Recipe recipe = test::randomSquareWork(random, i % 2 == 0, {4, 5});
    const auto work = arrange(recipe);
    if (!work) continue;
    ++meshed;
    const Solid solid = build(recipe).value();
    const Mesh mesh = triangulate(solid).value();
    EXPECT_NEAR(meshVolume(mesh), solid.volume(), 1e-9 * solid.volume());
    EXPECT_TRUE(isClosed(mesh));
    EXPECT_NEAR(meshArea(mesh), solid.area(), 1e-9 * solid.area());
  }
  EXPECT_GT(meshed, count * 5 / 8);
}

/// The trench's floor winds round a post and touches itself at corners. Its ears leave three
/// corners in the end that turn the wrong way.
TEST(Mesh, OfATrenchRoundAPostCoversItsFloorOnce) {
  const Recipe recipe{test::block({0, 0, 0}, {5, 5, 3}),
                      {{Step::Kind::remove,
                        {test::block({1, 1, 1}, {3, 2, 4}), test::block({3, 0, 1}, {5, 2, 4}),
                         test::block({2, 2, 0}, {3, 3, 4}), test::block({0, 2, 1}, {2, 3, 4}),
                         test::block({3, 2, 1}, {4, 4, 4}), test::block({3, 4, 2}, {4, 5, 4}),
                         test::block({0, 2, 1}, {2, 3, 4}), test::block({2, 2, 1}, {3, 4, 4})}}}};
  ASSERT_TRUE(arrange(recipe));
  const Solid solid = build(recipe).value();
  const Mesh mesh = triangulate(solid).value();
  EXPECT_TRUE(isClosed(mesh));
  EXPECT_NEAR(meshArea(mesh), solid.area(), 1e-9 * solid.area());
}

TEST(Mesh, OfADowelComesAsNearAsItsSag) {
  const double r = 20;
  const double h = 50;
  const Solid dowel = makeCylinder({}, {0, 0, 1}, Length::mm(r), Length::mm(h)).value();
  const double exact = dowel.volume();
  const Mesh coarse = triangulate(dowel, Length::mm(0.2)).value();
  const Mesh fine = triangulate(dowel, Length::mm(0.002)).value();
  EXPECT_LT(meshVolume(coarse), exact);
  EXPECT_LT(exact - meshVolume(coarse), 0.2 * 2 * std::numbers::pi * r * h);
  EXPECT_LT(exact - meshVolume(fine), 0.002 * 2 * std::numbers::pi * r * h);
}

TEST(Mesh, LeavesTheSolidAsItWas) {
  const Solid dowel = makeCylinder({}, {0, 0, 1}, Length::mm(20), Length::mm(50)).value();
  const Mesh first = triangulate(dowel, Length::mm(0.5)).value();
  (void)triangulate(dowel, Length::mm(0.01)).value();
  EXPECT_EQ(triangulate(dowel, Length::mm(0.5)).value().triangles, first.triangles);
}

TEST(Mesh, WithNoSagIsRefused) {
  const Solid cube = makeBox({{0, 0, 0}, {1, 1, 1}}).value();
  EXPECT_EQ(triangulate(cube, Length::mm(0)).error().code, ErrorCode::badDimension);
}

}  // namespace
}  // namespace dryfit::kernel

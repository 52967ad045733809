// Round holes and bars that go on in each other, in parts with a slanted cut, which the general way
// has to make. What one hole of the whole length makes of the same part is the measure, and the
// volume of a cylinder.

#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>

#include "kernel/recipe.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"
#include "tests/support/square_agree.h"
#include "tests/support/square_pieces.h"

namespace dryfit::kernel {
namespace {

using std::numbers::pi;
using test::block;

/// Takes the end off a board 200 x 80 x 20 at a slant: from (170, 0) to (200, 30) in the xz plane.
const Tool kSlant = [] {
  const Frame upright{{0, 81, 0}, {1, 0, 0}, {0, 0, 1}, {0, -1, 0}};
  return Prism{upright, {{169, -1}, {201, -1}, {201, 31}}, 82};
}();
constexpr double kSlantedBoard = (200.0 * 20 - 20 * 10 - 10 * 20) * 80;

/// The board, slanted and cut.
Recipe board(std::vector<Tool> cuts) {
  cuts.insert(cuts.begin(), kSlant);
  return {block({0, 0, 0}, {200, 80, 20}), {{Step::Kind::remove, std::move(cuts)}}};
}
Tool downTo(double bottom, double radius = 4) {
  return Cylinder{{50, 40, 21}, {0, 0, -1}, radius, 21 - bottom};
}
Tool upTo(double top, double radius = 4) {
  return Cylinder{{50, 40, -1}, {0, 0, 1}, radius, top + 1};
}

void expectSameAs(const Recipe& whole, const Recipe& pieced) {
  const auto a = build(whole);
  const auto b = build(pieced);
  ASSERT_TRUE(a) << a.error().line();
  ASSERT_TRUE(b) << b.error().line();
  EXPECT_TRUE(validate(*b));
  test::expectSame(*a, *b);
}

TEST(HolesInLine, FromBothSidesOfASlantedBoardAreOneThroughHole) {
  for (const double overlap : {0.0, 1e-7, 1e-4, 0.5, 6.0, 12.0, 13.0}) {
    SCOPED_TRACE(overlap);
    expectSameAs(board({downTo(-1)}), board({downTo(8), upTo(8 + overlap)}));
  }
  EXPECT_NEAR(build(board({downTo(8), upTo(8)}))->volume(), kSlantedBoard - pi * 16 * 20, 1e-6);
}

TEST(HolesInLine, ThroughTheSlantedFaceAreOneHole) {
  const auto hole = [](double from, double to) {
    const Vec3 way{0, 0, from < to ? 1.0 : -1.0};
    return Tool(Cylinder{{182, 40, from}, way, 3, std::fabs(to - from)});
  };
  expectSameAs(board({hole(-1, 25)}), board({hole(25, 15), hole(-1, 17)}));
}

TEST(HolesInLine, BoredOneAfterTheOtherAreOneHole) {
  Recipe recipe = board({downTo(8)});
  recipe.steps.push_back({Step::Kind::remove, {upTo(12)}});
  expectSameAs(board({downTo(-1)}), recipe);
}

TEST(HolesInLine, OfOneLineButNotOneWidthKeepTheirStep) {
  for (const double overlap : {0.0, 0.5, 6.0, 12.0}) {
    SCOPED_TRACE(overlap);
    const auto solid = build(board({downTo(8), upTo(8 + overlap, 3)}));
    ASSERT_TRUE(solid) << solid.error().line();
    EXPECT_NEAR(solid->volume(), kSlantedBoard - pi * (16 * 12 + 9 * 8), 1e-6);
    EXPECT_EQ(solid->topology().faces, 6 + 3);
  }
}

TEST(HolesInLine, ThatDoNotMeetStayTwo) {
  const auto solid = build(board({downTo(12), upTo(8)}));
  ASSERT_TRUE(solid) << solid.error().line();
  EXPECT_NEAR(solid->volume(), kSlantedBoard - pi * 16 * 16, 1e-6);
  EXPECT_EQ(solid->topology().faces, 6 + 4);
}

TEST(HolesInLine, ThatJustReachAFaceAreAsIfTheyOverran) {
  const auto flush = [](double from, double to) {
    const Vec3 way{0, 0, from < to ? 1.0 : -1.0};
    return Tool(Cylinder{{50, 40, from}, way, 4, std::fabs(to - from)});
  };
  expectSameAs(board({downTo(8)}), board({flush(20, 8)}));
  expectSameAs(board({downTo(-1)}), board({flush(20, 0)}));
  expectSameAs(board({downTo(-1)}), board({flush(20, 8), flush(0, 8)}));
}

TEST(HolesInLine, InAnyDirectionAndOrderAreOneHole) {
  std::mt19937_64 random(test::seed());
  std::uniform_real_distribution<double> part(0, 1);
  for (int i = 0; i < test::repetitions(24); ++i) {
    SCOPED_TRACE("seed " + std::to_string(test::seed()) + ", hole " + std::to_string(i));
    // Steep enough to come out by the two broad faces alone.
    const Vec3 way = Vec3{part(random) - 0.5, part(random) - 0.5, 1}.unit();
    const Point3 foot = Point3{80, 40, 10} - way * 30;
    const auto bore = [&](double from, double to) {
      const Vec3 axis = from < to ? way : -way;
      return Tool(Cylinder{foot + way * from, axis, 3, std::fabs(to - from)});
    };
    std::vector<Tool> pieces;
    const double step = 60.0 / (2 + i % 3);
    for (double at = 0; at < 60 - 1e-6; at += step) {
      const double past = at + step + (i % 2 == 0 ? 0 : part(random) * step);
      pieces.push_back(part(random) < 0.5 ? bore(at, past) : bore(past, at));
    }
    std::shuffle(pieces.begin(), pieces.end(), random);
    expectSameAs(board({bore(0, 60)}), board(pieces));
  }
}

TEST(HolesInLine, AHoleClosedAgainIsNotBoredTwiceAtOnce) {
  Recipe recipe = board({downTo(8)});
  recipe.steps.push_back({Step::Kind::add, {block({40, 30, 0}, {60, 50, 20})}});
  const double closed = build(recipe)->volume();
  EXPECT_NEAR(closed, kSlantedBoard, 1e-6);
  recipe.steps.push_back({Step::Kind::remove, {upTo(8)}});
  const auto solid = build(recipe);
  ASSERT_TRUE(solid) << solid.error().line();
  EXPECT_NEAR(solid->volume(), kSlantedBoard - pi * 16 * 8, 1e-6);
}

TEST(HolesInLine, AnUnsoundToolBehindThemKeepsItsNumber) {
  const auto bad = build(board({downTo(8), upTo(8), block({0, 0, 0}, {10, 10, 0})}));
  ASSERT_FALSE(bad);
  EXPECT_EQ(bad.error().where, "step 1: tool 4");
}

TEST(BarsInLine, AreOneBar) {
  const Recipe pieced{Cylinder{{0, 0, 0}, {0, 0, 1}, 10, 50},
                      {{Step::Kind::add, {Cylinder{{0, 0, 80}, {0, 0, -1}, 10, 40}}}}};
  expectSameAs({Cylinder{{0, 0, 0}, {0, 0, 1}, 10, 80}, {}}, pieced);
}

TEST(BarsInLine, CutAndJoinWhicheverWayTheyPoint) {
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < 20; ++i) {
    SCOPED_TRACE("seed " + std::to_string(test::seed()) + ", line " + std::to_string(i));
    const Frame line = test::randomFrame(random);
    const auto bar = [&](double from, double to) {
      const Vec3 axis = from < to ? line.z : -line.z;
      const Length height = Length::mm(std::fabs(to - from));
      return *makeCylinder(line.place({0, 0, from}), axis, Length::mm(4), height);
    };
    const Solid up = bar(0, 30);
    const Solid down = bar(50, 20);
    const auto both = fuse(up, {&down, 1});
    ASSERT_TRUE(both) << both.error().line();
    test::expectSame(bar(0, 50), *both);
    const auto rest = cut(up, {&down, 1});
    ASSERT_TRUE(rest) << rest.error().line();
    test::expectSame(bar(0, 20), *rest);
  }
}

}  // namespace
}  // namespace dryfit::kernel

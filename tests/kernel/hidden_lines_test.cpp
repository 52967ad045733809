#include "kernel/hidden_lines.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <thread>

#include "kernel/recipe.h"
#include "tests/support/random_pieces.h"
#include "tests/support/ray_view.h"
#include "tests/support/repetitions.h"

namespace dryfit::kernel {
namespace {

const Viewpoint kFront{{1, 0, 0}, {0, 0, 1}};
const Viewpoint kTop{{1, 0, 0}, {0, 1, 0}};

Solid box(Point3 min, Point3 max) {
  return makeBox({min, max}).value();
}

std::vector<ViewLine> linesOf(const Solid& solid, const Viewpoint& view) {
  return hiddenLines({&solid, 1}, view).value();
}

/// A straight line from its lower-left end.
ViewLine line(Point2 a, Point2 b, bool visible = true) {
  return {{a, b}, visible};
}
ViewLine dashed(Point2 a, Point2 b) {
  return line(a, b, false);
}

/// The four sides of a rectangle in the order in which a view gives them.
std::vector<ViewLine> rectangle(double x0, double y0, double x1, double y1) {
  return {line({x0, y0}, {x0, y1}), line({x0, y0}, {x1, y0}), line({x0, y1}, {x1, y1}),
          line({x1, y0}, {x1, y1})};
}

std::vector<ViewLine> with(std::vector<ViewLine> lines, const std::vector<ViewLine>& more) {
  lines.insert(lines.end(), more.begin(), more.end());
  return lines;
}

/// The same lines in any order, coordinates to 1e-6 mm.
void expectLines(std::vector<ViewLine> actual, std::vector<ViewLine> expected) {
  const auto order = [](std::vector<ViewLine>& lines) {
    const auto key = [](const ViewLine& l) {
      const auto whole = [](double v) { return std::llround(v * 1e5); };
      return std::tuple(!l.visible, l.points.size(), whole(l.points.front().x),
                        whole(l.points.front().y), whole(l.points.back().x),
                        whole(l.points.back().y));
    };
    std::sort(lines.begin(), lines.end(),
              [&](const ViewLine& a, const ViewLine& b) { return key(a) < key(b); });
  };
  order(actual);
  order(expected);
  ASSERT_EQ(actual.size(), expected.size());
  for (std::size_t i = 0; i < actual.size(); ++i) {
    EXPECT_EQ(actual[i].visible, expected[i].visible);
    ASSERT_EQ(actual[i].points.size(), expected[i].points.size());
    for (std::size_t k = 0; k < actual[i].points.size(); ++k) {
      EXPECT_NEAR(actual[i].points[k].x, expected[i].points[k].x, 1e-6);
      EXPECT_NEAR(actual[i].points[k].y, expected[i].points[k].y, 1e-6);
    }
  }
}

TEST(View, OfABoxIsItsOutlineAlone) {
  const Solid board = box({10, 20, 30}, {60, 45, 130});
  EXPECT_EQ(linesOf(board, kFront), rectangle(10, 30, 60, 130));
  EXPECT_EQ(linesOf(board, kTop), rectangle(10, 20, 60, 45));
  // From the left: the eye sees y run to the left.
  EXPECT_EQ(linesOf(board, {{0, -1, 0}, {0, 0, 1}}), rectangle(-45, 30, -20, 130));
}

TEST(View, OfAMortiseShowsItsMouthInFrontAndItsDepthHidden) {
  const Solid chisel = box({17, -1, 60}, {33, 30, 80});
  const Solid leg = cut(box({0, 0, 0}, {50, 50, 100}), {&chisel, 1}).value();
  // In front the floor lies right behind the mouth, so nothing is hidden.
  expectLines(linesOf(leg, kFront), with(rectangle(0, 0, 50, 100), rectangle(17, 60, 33, 80)));
  // From above three hidden lines; the fourth lies under the leg's own front edge.
  expectLines(linesOf(leg, kTop),
              with(rectangle(0, 0, 50, 50), {dashed({17, 0}, {17, 30}), dashed({17, 30}, {33, 30}),
                                             dashed({33, 0}, {33, 30})}));
  // From behind all four are hidden.
  std::vector<ViewLine> mouth = rectangle(-33, 60, -17, 80);
  for (ViewLine& l : mouth) l.visible = false;
  expectLines(linesOf(leg, {{-1, 0, 0}, {0, 0, 1}}), with(rectangle(-50, 0, 0, 100), mouth));
}

TEST(View, OfABoredHoleIsARoundHiddenFromBehindAndTwoLinesFromTheSide) {
  const Solid drill = makeCylinder({25, 25, -1}, {0, 0, 1}, Length::mm(8), Length::mm(20)).value();
  const Solid block = cut(box({0, 0, 0}, {50, 50, 100}), {&drill, 1}).value();
  expectLines(linesOf(block, kFront),
              with(rectangle(0, 0, 50, 100), {dashed({17, 0}, {17, 19}), dashed({33, 0}, {33, 19}),
                                              dashed({17, 19}, {33, 19})}));
  const auto below = linesOf(block, {{1, 0, 0}, {0, -1, 0}});
  ASSERT_EQ(below.size(), 5U);  // the floor's circle lies under the mouth's and is not repeated
  const auto round = std::find_if(below.begin(), below.end(),
                                  [](const ViewLine& l) { return l.points.size() > 2; });
  ASSERT_NE(round, below.end());
  EXPECT_TRUE(round->visible);
  EXPECT_EQ(round->points.front(), round->points.back());
  for (std::size_t i = 0; i < round->points.size(); ++i) {
    const Point2 p = round->points[i];
    EXPECT_NEAR(std::hypot(p.x - 25, p.y + 25), 8, 1e-6);
    if (i == 0) continue;
    const Point2 q = round->points[i - 1];
    EXPECT_GE(std::hypot((p.x + q.x) / 2 - 25, (p.y + q.y) / 2 + 25), 8 - 0.05);
  }
  const auto above = linesOf(block, kTop);
  ASSERT_EQ(above.size(), 5U);
  EXPECT_FALSE(above.back().visible);
  EXPECT_GT(above.back().points.size(), 12U);
}

TEST(View, OfADowelHasNoSeam) {
  const Solid dowel = makeCylinder({10, 20, 5}, {0, 0, 1}, Length::mm(8), Length::mm(40)).value();
  expectLines(linesOf(dowel, kFront), rectangle(2, 5, 18, 45));
  EXPECT_EQ(linesOf(dowel, kTop).size(), 1U);
}

TEST(View, OfTwoPartsHidesWhatStandsBehind) {
  // A rail 40 high behind a post: its edges vanish at the post and come back on the other side.
  const std::vector<Solid> parts{box({-100, 10, 20}, {100, 20, 60}), box({-15, 0, 0}, {15, 8, 90})};
  const std::vector<ViewLine> expected =
      with(rectangle(-15, 0, 15, 90), {line({-100, 20}, {-100, 60}), line({100, 20}, {100, 60}),  //
                                       line({-100, 20}, {-15, 20}), line({15, 20}, {100, 20}),    //
                                       line({-100, 60}, {-15, 60}), line({15, 60}, {100, 60}),    //
                                       dashed({-15, 20}, {15, 20}), dashed({-15, 60}, {15, 60})});
  expectLines(hiddenLines(parts, kFront).value(), expected);
  const std::vector<Solid> swapped{parts[1], parts[0]};
  EXPECT_EQ(hiddenLines(swapped, kFront).value(), hiddenLines(parts, kFront).value());
}

TEST(View, OfPartsInOneLineDrawsThatLineOnce) {
  const std::vector<Solid> parts{box({0, 0, 0}, {50, 10, 20}), box({50, 0, 0}, {90, 10, 20}),
                                 box({90, 5, 0}, {120, 10, 20})};
  expectLines(hiddenLines(parts, kFront).value(),
              with(rectangle(0, 0, 120, 20), {line({50, 0}, {50, 20}), line({90, 0}, {90, 20})}));
}

TEST(View, FarFromTheOriginIsAsSharp) {
  const Frame away{{50'000, -30'000, 20'000}, {1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
  const Solid chisel = box({17, -1, 60}, {33, 30, 80});
  const Solid leg = cut(box({0, 0, 0}, {50, 50, 100}), {&chisel, 1}).value();
  std::vector<ViewLine> expected = linesOf(leg, kTop);
  for (ViewLine& l : expected) {
    for (Point2& p : l.points) p = {p.x + 50'000, p.y - 30'000};
  }
  expectLines(linesOf(leg.placed(away), kTop), expected);
}

TEST(View, WithASkewViewpointIsRefused) {
  const Solid cube = box({0, 0, 0}, {1, 1, 1});
  const auto result = hiddenLines({&cube, 1}, {{1, 0, 0}, {1, 0, 0}});
  ASSERT_FALSE(result);
  EXPECT_EQ(result.error().code, ErrorCode::badDimension);
}

TEST(View, OfNothingIsEmpty) {
  EXPECT_TRUE(hiddenLines({}, kFront).value().empty());
}

TEST(View, IsTheSameFromTwoThreads) {
  std::mt19937_64 random(test::seed());
  std::vector<Solid> parts;
  while (parts.size() < 6) {
    const auto part = buildGeneral(test::randomPiece(random, {.turned = true, .round = true}));
    if (part) parts.push_back(*part);
  }
  const Frame f = test::randomFrame(random);
  const auto work = [&](std::vector<std::vector<ViewLine>>& views) {
    for (const Solid& part : parts) {
      views.push_back(linesOf(part, kFront));
      views.push_back(linesOf(part, {f.x, f.y}));
    }
  };
  std::vector<std::vector<ViewLine>> a;
  std::vector<std::vector<ViewLine>> b;
  std::thread other(work, std::ref(b));
  work(a);
  other.join();
  EXPECT_EQ(a, b);
}

/// Against an independent way to see: rays from each edge of the part to the eye.
TEST(View, OfRandomPiecesAgreesWithRaysToTheEye) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(test::seed());
  int looked = 0;
  for (int i = 0; i < test::repetitions(40); ++i) {
    SCOPED_TRACE(i);
    const auto part = buildGeneral(test::randomPiece(random, {.turned = i % 2 == 1}));
    if (!part) continue;
    const Frame f = test::randomFrame(random);
    const Viewpoint view{f.x, f.y};
    const test::RayView rays(*part, view);
    const auto lines = linesOf(*part, view);
    for (const test::RaySample& sample : rays.samples()) {
      ++looked;
      const bool onVisible = test::liesOn(lines, sample.place, true, 1e-3);
      const bool onAny = onVisible || test::liesOn(lines, sample.place, false, 1e-3);
      EXPECT_TRUE(onAny) << "an edge is missing at " << sample.place.x << ", " << sample.place.y;
      if (sample.visible) {
        EXPECT_TRUE(onVisible) << "drawn hidden, yet in sight, at " << sample.place.x << ", "
                               << sample.place.y;
      }
      // A random eye sees no two edges on one line, so what is hidden must be drawn hidden.
      if (!sample.visible) {
        EXPECT_FALSE(onVisible && !rays.crossesAnother(sample))
            << "drawn in sight, yet hidden, at " << sample.place.x << ", " << sample.place.y;
      }
    }
  }
  EXPECT_GT(looked, test::repetitions(5000));
}

}  // namespace
}  // namespace dryfit::kernel

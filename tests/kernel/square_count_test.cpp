// Square work against the plainest count of its cells, and against its own laws: quick enough for
// many thousands of parts.

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <map>
#include <set>
#include <string>

#include "kernel/square_work.h"
#include "tests/support/cell_count.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"
#include "tests/support/square_pieces.h"

namespace dryfit::kernel {
namespace {

/// Every loop is closed, keeps the face on its left, and every edge is used once each way.
void expectSoundLoops(const SquareWork& work) {
  std::map<std::pair<int, bool>, int> uses;
  std::vector<int> ends(work.corners.size(), 0);
  for (const SquareWork::Loop& loop : work.loops) {
    std::set<int> passed;
    for (auto i = loop.first; i < loop.last; ++i) {
      const auto& use = work.uses[i];
      const auto& next = work.uses[i + 1 < loop.last ? i + 1 : loop.first];
      const auto& edge = work.edges[use.edge];
      const auto& nextEdge = work.edges[next.edge];
      EXPECT_EQ(use.backwards ? edge.from : edge.to, next.backwards ? nextEdge.to : nextEdge.from);
      EXPECT_TRUE(passed.insert(use.backwards ? edge.to : edge.from).second)
          << "a loop passes a corner twice";
      ++uses[{use.edge, use.backwards}];
    }
  }
  EXPECT_EQ(uses.size(), 2 * work.edges.size());
  EXPECT_TRUE(std::all_of(uses.begin(), uses.end(), [](const auto& u) { return u.second == 1; }));
  for (const auto& edge : work.edges) {
    ++ends[edge.from];
    ++ends[edge.to];
    for (int axis = 0; axis < 3; ++axis) {
      const int from = work.corners[edge.from].node[axis];
      const int to = work.corners[edge.to].node[axis];
      if (axis == edge.axis) {
        EXPECT_LT(from, to);
      } else {
        EXPECT_EQ(from, to);
      }
    }
  }
  for (const int count : ends) EXPECT_GE(count, 3);
}

/// How often loops of one face meet at a corner: each time, the face between them is cut through.
int touchesOf(const SquareWork& work, const SquareWork::Face& face) {
  std::set<int> passed;
  int visits = 0;
  for (auto l = face.firstLoop; l < face.lastLoop; ++l) {
    for (auto i = work.loops[l].first; i < work.loops[l].last; ++i, ++visits) {
      const auto& edge = work.edges[work.uses[i].edge];
      passed.insert(work.uses[i].backwards ? edge.to : edge.from);
    }
  }
  return visits - int(passed.size());
}

/// Euler's and Poincaré's formula, V - E + F - (loops beyond one a face) = 2 (shells - handles),
/// with no fewer handles than none.
void expectEulerPoincare(const SquareWork& work) {
  const Topology t = work.topology();
  int inner = 0;
  for (const auto& face : work.faces) {
    inner += face.lastLoop - face.firstLoop - 1 - touchesOf(work, face);
  }
  const int twice = t.vertices - t.edges + t.faces - inner;
  EXPECT_EQ(twice % 2, 0);
  EXPECT_LE(twice, 2 * t.shells);
}

void expectBoxesShareNoWood(const SquareWork& work) {
  double sum = 0;
  for (std::size_t i = 0; i < work.boxes.size(); ++i) {
    EXPECT_FALSE(work.boxes[i].empty());
    sum += work.boxes[i].volume();
    for (std::size_t j = i + 1; j < work.boxes.size(); ++j) {
      EXPECT_TRUE(work.boxes[i].common(work.boxes[j]).empty());
      EXPECT_LE(work.boxes[i].min.x, work.boxes[j].min.x);
    }
  }
  EXPECT_EQ(sum, work.volume);
}

void expectCounted(const Recipe& recipe) {
  const auto work = arrange(recipe);
  const auto count = test::countCells(recipe);
  ASSERT_EQ(bool(work), bool(count)) << (work ? "not refused" : work.error().line());
  if (!work) return;
  EXPECT_EQ(work->topology(), count->topology);
  EXPECT_NEAR(work->volume, count->volume, 1e-12 * count->volume);
  EXPECT_NEAR(work->area, count->area, 1e-12 * count->area);
  expectSoundLoops(*work);
  expectEulerPoincare(*work);
  expectBoxesShareNoWood(*work);
}

void expectRandomPartsCounted(int count, bool grid, test::Amount most) {
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < count && !testing::Test::HasFailure(); ++i) {
    SCOPED_TRACE("seed " + std::to_string(test::seed()) + ", part " + std::to_string(i));
    expectCounted(test::randomSquareWork(random, grid, most));
  }
}

int partsToTry(int usual) {
  const char* given = std::getenv("DRYFIT_SQUARE_PARTS");
  return given ? std::atoi(given) : test::repetitions(usual);
}

TEST(SquareCount, OnAGridFullOfCoincidencesIsThePlainCount) {
  expectRandomPartsCounted(partsToTry(4000), true, {3, 5});
  expectRandomPartsCounted(partsToTry(4000), true, {6, 2});
}

TEST(SquareCount, OffTheGridIsThePlainCount) {
  expectRandomPartsCounted(partsToTry(1000), false, {2, 4});
}

/// A face with many islands and holes, and lumps and voids by the dozen: cells taken and given one
/// at a time.
TEST(SquareCount, OfWoodEatenCellByCellIsThePlainCount) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(test::seed());
  const auto cell = [&](int most) {
    return double(std::uniform_int_distribution(0, most)(random));
  };
  int accepted = 0;
  for (int i = 0; i < partsToTry(1500) && !HasFailure(); ++i) {
    Recipe recipe{test::block({0, 0, 0}, {6, 6, 4}), {{Step::Kind::remove, {}}}};
    const int eaten = 2 + i % 16;
    for (int k = 0; k < eaten; ++k) {
      const Point3 low{cell(5), cell(5), cell(3)};
      recipe.steps[0].tools.push_back(test::block(low, low + Vec3{1, 1, 1}));
    }
    expectCounted(recipe);
    accepted += arrange(recipe) ? 1 : 0;
  }
  EXPECT_GT(accepted, partsToTry(1500) / 10);
}

/// More than 64 coordinates along x, so that rows of cells are several words long.
TEST(SquareCount, OfLongRowsIsThePlainCount) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(test::seed());
  const auto whole = [&](int low, int high) {
    return double(std::uniform_int_distribution(low, high)(random));
  };
  for (int i = 0; i < test::repetitions(40) && !HasFailure(); ++i) {
    Recipe recipe{test::block({0, 0, 0}, {1000, 4, 4}), {{Step::Kind::remove, {}}}};
    for (int k = 0; k < 40 + 4 * i; ++k) {
      const Point3 low{whole(0, 999), whole(0, 3), whole(2, 3)};
      recipe.steps[0].tools.push_back(
          test::block(low, low + Vec3{whole(1, 12), whole(1, 2), whole(1, 2)}));
    }
    expectCounted(recipe);
  }
}

}  // namespace
}  // namespace dryfit::kernel

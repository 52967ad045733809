// Solids are shared between threads: whatever is asked of one, by however many threads at once, is
// answered as if one thread had asked alone.

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <functional>
#include <latch>
#include <random>
#include <string>
#include <thread>
#include <vector>

#include "kernel/hidden_lines.h"
#include "kernel/mesh.h"
#include "kernel/recipe.h"
#include "kernel/solid.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"
#include "tests/support/square_pieces.h"

namespace dryfit::kernel {
namespace {

/// All that can be asked of two solids, each answer as the numbers that it is made of.
using Answers = std::vector<std::vector<double>>;

std::vector<double> numbers(const Box3& box) {
  return {box.min.x, box.min.y, box.min.z, box.max.x, box.max.y, box.max.z};
}

std::vector<double> numbers(const Result<Solid>& solid) {
  if (!solid) return {static_cast<double>(solid.error().code)};
  const Topology t = solid->topology();
  std::vector<double> all{solid->volume(),  solid->area(),      double(t.solids),
                          double(t.faces),  double(t.edges),    double(t.vertices),
                          double(t.shells), solid->centroid().x};
  const std::vector<double> box = numbers(solid->bounds());
  all.insert(all.end(), box.begin(), box.end());
  return all;
}

std::vector<double> numbers(const Result<std::vector<ViewLine>>& lines) {
  if (!lines) return {static_cast<double>(lines.error().code)};
  std::vector<double> all;
  for (const ViewLine& line : *lines) {
    all.push_back(line.visible ? 1 : 0);
    for (const Point2& p : line.points) all.insert(all.end(), {p.x, p.y});
  }
  return all;
}

std::vector<double> numbers(const Result<Mesh>& mesh) {
  if (!mesh) return {static_cast<double>(mesh.error().code)};
  Vec3 sum;
  for (const Point3& p : mesh->points) sum = sum + (p - Point3{});
  return {double(mesh->points.size()), double(mesh->triangles.size()), sum.x, sum.y, sum.z};
}

/// Asks everything, beginning with question `first`, so that threads come to the questions in
/// different orders.
Answers askAll(const Solid& a, const Solid& b, std::size_t first) {
  const Frame aside{{7, 11, 13}};
  const std::array<std::function<std::vector<double>()>, 11> questions{
      [&] { return numbers(a.bounds()); },
      [&] {
        return std::vector{a.area(), a.volume(), a.centroid().y};
      },
      [&] { return numbers(Result<Solid>(a.placed(aside))); },
      [&] {
        return std::vector{validate(a) ? 1.0 : 0.0, a.isSameAs(b) ? 1.0 : 0.0};
      },
      [&] {
        return numbers(cut(a, {&b, 1}));
      },
      [&] {
        return numbers(fuse(a, {&b, 1}));
      },
      [&] {
        return numbers(common(a, {&b, 1}));
      },
      [&] {
        const auto shared = overlap(a, b);
        return std::vector{shared ? shared->volume : -1, shared ? shared->centre.x : -1};
      },
      [&] { return std::vector{distance(a, b.placed(aside)).value_or(-1)}; },
      [&] { return numbers(triangulate(a)); },
      [&] {
        return numbers(hiddenLines(std::array{a, b}, Viewpoint{}));
      },
  };
  Answers answers(questions.size());
  for (std::size_t i = 0; i < questions.size(); ++i) {
    const std::size_t which = (first + i) % questions.size();
    answers[which] = questions[which]();
  }
  return answers;
}

/// The library may sum in an order that changes from run to run, and with it the last digits.
void expectSame(const std::vector<double>& found, const std::vector<double>& wanted,
                std::size_t question) {
  ASSERT_EQ(found.size(), wanted.size()) << "question " << question;
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    EXPECT_NEAR(found[i], wanted[i], 1e-9 * (1 + std::fabs(wanted[i]))) << "question " << question;
  }
}

/// The answers of threads that share two solids of which nothing was asked before, and those of one
/// thread that has its own.
void expectThreadsAgree(const Recipe& first, const Recipe& second) {
  const Answers alone = askAll(build(first).value(), build(second).value(), 0);
  const Solid a = build(first).value(), b = build(second).value();
  constexpr std::size_t kThreads = 3;
  std::vector<Answers> together(kThreads);
  {
    std::latch start(kThreads);
    std::vector<std::jthread> threads;
    for (std::size_t t = 0; t < kThreads; ++t) {
      threads.emplace_back([&, t] {
        start.arrive_and_wait();
        together[t] = askAll(a, b, 4 * t);
      });
    }
  }
  for (const Answers& answers : together) {
    for (std::size_t i = 0; i < alone.size(); ++i) expectSame(answers[i], alone[i], i);
  }
}

void expectAlwaysAgree(const std::function<Recipe(std::mt19937_64&)>& random, int count) {
  std::mt19937_64 numbers(test::seed());
  const auto madeable = [&] {
    while (true) {
      Recipe recipe = random(numbers);
      if (build(recipe)) return recipe;  // cuts may leave nothing of a random part
    }
  };
  for (int i = 0; i < count && !testing::Test::HasFailure(); ++i) {
    SCOPED_TRACE("seed " + std::to_string(test::seed()) + ", pair " + std::to_string(i));
    const Recipe a = madeable();
    const Recipe b = madeable();
    expectThreadsAgree(a, b);
  }
}

TEST(SharedSolids, OfSquareWorkAnswerThreadsAsTheyAnswerOne) {
  expectAlwaysAgree(
      [](auto& random) {
        return test::randomSquareWork(random, false, {2, 2});
      },
      test::repetitions(6));
}

TEST(SharedSolids, OfBoredWorkAnswerThreadsAsTheyAnswerOne) {
  expectAlwaysAgree([](auto& random) { return test::randomBoredWork(random, 3); },
                    test::repetitions(4));
}

TEST(SharedSolids, OfTheGeneralWayAnswerThreadsAsTheyAnswerOne) {
  expectAlwaysAgree(
      [](auto& random) { return test::randomPiece(random, {.turned = true, .round = true}); },
      test::repetitions(3));
}

}  // namespace
}  // namespace dryfit::kernel

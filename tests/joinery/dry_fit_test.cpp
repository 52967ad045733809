#include "joinery/fit/dry_fit.h"
#include "joinery/checks/no_wood_left.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <atomic>
#include <random>
#include <stdexcept>
#include <thread>
#include <tuple>

#include "joinery/base/parallel.h"
#include "kernel/recipe.h"
#include "tests/support/hand_made.h"

namespace dryfit::joinery {
namespace {

using test::findingsOf;
using test::HandMade;

/// Boards in a heap, many of them alike, some running into each other.
HandMade heap(unsigned seed, int boards) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> place(0, 400);
  std::uniform_int_distribution<int> sort(0, 2);
  HandMade made;
  for (int i = 0; i < boards; ++i) {
    const kernel::Point3 corner{place(random), place(random), place(random)};
    const kernel::Vec3 size = std::array{kernel::Vec3{300, 60, 20}, kernel::Vec3{150, 60, 20},
                                         kernel::Vec3{300, 80, 25}}[sort(random)];
    made.part("board" + std::to_string(i), {corner, corner + size}, Axis::x, Axis::y);
  }
  return made;
}

TEST(DryFit, BuildsEqualPartsOnceAndSharesTheSolid) {
  const HandMade made = heap(7, 20);
  const auto solids = buildSolids(made.piece);
  ASSERT_TRUE(solids.has_value());
  ASSERT_EQ(solids->size(), 20u);
  for (std::size_t a = 0; a < solids->size(); ++a) {
    for (std::size_t b = 0; b < a; ++b) {
      const bool alike = made.piece.parts[a].recipe() == made.piece.parts[b].recipe();
      EXPECT_EQ(&(*solids)[a].impl() == &(*solids)[b].impl(), alike);
    }
  }
}

TEST(DryFit, NamesTheJointsThatLeaveNoWood) {
  HandMade made;
  const PartId bar = made.part("bar", {{0, 0, 0}, {100, 20, 20}}, Axis::x, Axis::y);
  const JointId small = made.joint("small", {bar});
  const JointId right = made.joint("right", {bar});
  const JointId left = made.joint("left", {bar});
  made.cut(small, bar, Purpose::mortise, {{5, 5, 10}, {15, 15, 20}}, Face::top);
  made.cut(right, bar, Purpose::lapSocket, {{60, 0, 0}, {100, 20, 20}}, Face::top);
  made.cut(left, bar, Purpose::lapSocket, {{0, 0, 0}, {60, 20, 20}}, Face::top);
  const auto solids = buildSolids(made.piece);
  ASSERT_TRUE(solids);
  EXPECT_NEAR(solids->front().volume(), 100 * 20 * 20, 1e-6) << "it stands uncut";
  const auto found = findingsOf(made.piece, "not cut");
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].severity, Severity::error);
  EXPECT_EQ(found[0].parts, std::vector<PartId>{bar});
  EXPECT_EQ(found[0].text, "Of bar no wood is left: joint left and joint right take all of it.");
  EXPECT_EQ(found[0].mend, "Make the cuts of joint left smaller, or bar larger.");
}

TEST(DryFit, BuildsTheSameSolidsOnAllCoresAsOnOne) {
  HandMade made = heap(11, 30);
  for (PartId id(0); id.index() < 30; id = PartId(id.index() + 1)) {
    const JointId joint = made.joint("j" + std::to_string(id.index()), {id});
    const kernel::Box3 box = made.piece.parts[id.index()].span;
    const double at = box.min.x + 20 + 3.0 * static_cast<double>(id.index());
    made.cut(joint, id, Purpose::mortise,
             {{at, box.min.y + 20, box.max.z - 9}, {at + 30, box.min.y + 30, box.max.z}},
             Face::top);
  }
  const auto together = buildSolids(made.piece);
  ASSERT_TRUE(together.has_value());
  for (const PlacedPart& part : made.piece.parts) {
    const auto alone = kernel::build(part.recipe());
    ASSERT_TRUE(alone.has_value());
    EXPECT_EQ((*together)[part.id.index()].volume(), alone->volume());
    EXPECT_EQ((*together)[part.id.index()].topology(), alone->topology());
    EXPECT_NEAR(alone->volume(), part.blank().volume() - 30 * 10 * 9, 1e-6);
  }
}

TEST(DryFit, GoesOnWithTheRestWhereAPartHasNoWoodLeft) {
  HandMade made = heap(3, 4);
  const JointId joint = made.joint("all", {PartId(2)});
  made.cut(joint, PartId(2), Purpose::mortise, made.piece.parts[2].span, Face::top);
  const auto solids = buildSolids(made.piece);
  ASSERT_TRUE(solids.has_value());
  EXPECT_EQ(solids->size(), 4U);
  EXPECT_EQ(partsWithoutWood(made.piece), std::vector<PartId>{PartId(2)});
}

TEST(DryFit, StopsWhenAskedTo) {
  const HandMade made = heap(5, 10);
  const auto solids = buildSolids(made.piece);
  ASSERT_TRUE(solids.has_value());
  const auto no = [](int, int) { return false; };
  ASSERT_FALSE(buildSolids(made.piece, no).has_value());
  EXPECT_EQ(buildSolids(made.piece, no).error().code, ErrorCode::cancelled);
  int calls = 0;
  const auto afterThree = [&](int, int) { return ++calls < 3; };
  ASSERT_FALSE(checkPiece(made.piece, *solids, afterThree).has_value());
  EXPECT_EQ(calls, 3);
}

TEST(DryFit, FindsTheSameThingsInTheSameOrderEveryTime) {
  const HandMade made = heap(13, 40);
  const auto solids = buildSolids(made.piece);
  ASSERT_TRUE(solids.has_value());
  const auto first = checkPiece(made.piece, *solids);
  ASSERT_TRUE(first.has_value());
  ASSERT_GT(first->size(), 3u);
  for (int round = 0; round < 3; ++round) {
    const auto again = checkPiece(made.piece, *buildSolids(made.piece));
    ASSERT_TRUE(again.has_value());
    ASSERT_EQ(again->size(), first->size());
    for (std::size_t i = 0; i < first->size(); ++i) EXPECT_TRUE((*again)[i] == (*first)[i]);
  }
}

TEST(DryFit, PutsTheWorstFirstThenKindsThenParts) {
  HandMade made = heap(17, 40);
  made.piece.model.brief.width = Expression{"1", true};
  made.piece.model.brief.height = Expression{"1", true};
  made.piece.model.brief.approved = {"height"};
  const JointId loose = made.joint("loose", {PartId(3), PartId(1)});
  made.piece.joints[loose.index()].fit = 0.2;
  made.piece.joints[loose.index()].fitMax = 0.15;
  made.piece.joints[loose.index()].fitSource = "a fit chosen for the test";
  const auto findings = checkPiece(made.piece, *buildSolids(made.piece));
  ASSERT_TRUE(findings.has_value());
  EXPECT_EQ(findings->back().kind, FindingKind::envelope);
  EXPECT_EQ(findings->back().severity, Severity::note);
  EXPECT_TRUE(
      std::is_sorted(findings->begin(), findings->end(), [](const Finding& a, const Finding& b) {
        return std::tie(a.severity, a.kind, a.parts) < std::tie(b.severity, b.kind, b.parts);
      }));
}

TEST(Parallel, DoesEachPieceOfWorkOnceOnAnyNumberOfThreads) {
  for (const unsigned threads : {1U, 2U, 7U}) {
    std::vector<int> times(1000, 0);
    const auto work = [&](std::size_t i) -> Result<void> {
      ++times[i];
      return {};
    };
    ASSERT_TRUE(inParallel(times.size(), work, {}, threads).has_value());
    EXPECT_EQ(std::count(times.begin(), times.end(), 1), 1000);
  }
}

TEST(Parallel, ReportsTheFirstFailureInTheOrderOfTheWork) {
  for (const unsigned threads : {1U, 2U, 7U}) {
    for (int round = 0; round < 20; ++round) {
      const auto work = [](std::size_t i) -> Result<void> {
        if (i % 10 == 7) return fail(ErrorCode::badModel, std::to_string(i));
        return {};
      };
      const auto done = inParallel(100, work, {}, threads);
      ASSERT_FALSE(done.has_value());
      EXPECT_EQ(done.error().what, "7");
    }
  }
}

TEST(Parallel, AsksBeforeTheWorkAndAfterEachPieceThatTheAskingThreadDid) {
  std::vector<int> told;
  const auto progress = [&](int done, int all) {
    EXPECT_EQ(all, 50);
    told.push_back(done);
    return true;
  };
  ASSERT_TRUE(inParallel(
      50, [](std::size_t) { return Result<void>(); }, progress, 1));
  ASSERT_EQ(told.size(), 51U);
  for (std::size_t i = 0; i < told.size(); ++i) EXPECT_EQ(told[i], static_cast<int>(i));
}

TEST(Parallel, BeginsNothingMoreOnceItIsToldToStop) {
  int begun = 0;
  const auto work = [&](std::size_t) -> Result<void> {
    ++begun;
    return {};
  };
  const auto done = inParallel(
      50, work, [](int made, int) { return made < 3; }, 1);
  ASSERT_FALSE(done);
  EXPECT_EQ(done.error().code, ErrorCode::cancelled);
  EXPECT_EQ(begun, 3);
}

TEST(Parallel, TurnsWhatIsNoStandardExceptionIntoAnError) {
  struct Oddity {};
  for (const unsigned threads : {1U, 2U, 7U}) {
    const auto work = [](std::size_t i) -> Result<void> {
      if (i % 2 == 0) throw Oddity{};
      throw 7;
    };
    const auto done = inParallel(20, work, {}, threads);
    ASSERT_FALSE(done);
    EXPECT_EQ(done.error().code, ErrorCode::libraryFailure);
    EXPECT_EQ(done.error().what, "a failure of an unknown kind");
  }
}

TEST(Parallel, EndsItsThreadsBeforeWhatTheProgressThrowsComesOut) {
  std::atomic<int> atWork = 0;
  const auto work = [&](std::size_t) -> Result<void> {
    ++atWork;
    std::this_thread::yield();
    --atWork;
    return {};
  };
  int asked = 0;
  const auto progress = [&](int, int) -> bool {
    if (++asked > 1) throw std::runtime_error("no terminal");
    return true;  // before the work
  };
  try {
    (void)inParallel(10'000, work, progress, 7);
    EXPECT_EQ(asked, 1) << "the asking thread came to do something";
  } catch (const std::runtime_error&) {
    EXPECT_EQ(asked, 2);
  }
  EXPECT_EQ(atWork, 0);
}

TEST(Parallel, TurnsAnExceptionIntoAnError) {
  const auto work = [](std::size_t) -> Result<void> { throw std::runtime_error("out of wood"); };
  const auto done = inParallel(3, work, {}, 2);
  ASSERT_FALSE(done.has_value());
  EXPECT_EQ(done.error().code, ErrorCode::libraryFailure);
  EXPECT_EQ(done.error().what, "out of wood");
}

}  // namespace
}  // namespace dryfit::joinery

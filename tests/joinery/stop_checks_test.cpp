// Checks of a large piece can be stopped in their midst: they ask often, and end when told to. All
// by counting questions, never by the clock.

#include <gtest/gtest.h>

#include <limits>
#include <string_view>
#include <vector>

#include "joinery/checks/checks.h"
#include "joinery/fit/absorb.h"
#include "joinery/fit/live_fit.h"
#include "joinery/making/fit_changes.h"
#include "tests/joinery/cupboard_sample.h"
#include "tests/support/batch_model.h"

namespace dryfit::joinery {
namespace {

/// Says stop at one question, and counts all.
struct Hand {
  int stopAt = std::numeric_limits<int>::max();
  int asked = 0;
  int lastDone = 0;

  [[nodiscard]] Progress progress() {
    return [this](int done, int all) {
      EXPECT_LE(0, done);
      EXPECT_LE(done, all);
      lastDone = done;
      return ++asked < stopAt;
    };
  }
};

/// The place of a check in the table, which is what progress counts.
int rowOf(std::string_view name) {
  for (std::size_t i = 0; i < checks().size(); ++i) {
    if (checks()[i].name == name) return static_cast<int>(i);
  }
  ADD_FAILURE() << "there is no check called " << name;
  return -1;
}

TEST(StoppedChecks, OfALargeBatchAskAtEveryPart) {
  const DryFit batch = fitOf(test::batchOfDoors(400), Basis::drawn);
  Hand hand;
  ASSERT_TRUE(checkPiece(batch.piece, batch.solids, hand.progress()));
  // Twice: once for cuts that meet, once for the walls that cuts leave.
  EXPECT_GE(hand.asked, 2 * static_cast<int>(batch.piece.parts.size()));
}

TEST(StoppedChecks, AskNoMoreOnceTheyWereToldToStop) {
  const DryFit batch = fitOf(test::batchOfDoors(60), Basis::drawn);
  Hand whole;
  ASSERT_TRUE(checkPiece(batch.piece, batch.solids, whole.progress()));
  for (int at = 1; at <= 2 * static_cast<int>(batch.piece.parts.size()); at += 7) {
    Hand hand{.stopAt = at};
    const auto stopped = checkPiece(batch.piece, batch.solids, hand.progress());
    ASSERT_FALSE(stopped);
    EXPECT_EQ(stopped.error().code, ErrorCode::cancelled);
    EXPECT_TRUE(stopped.error().where.empty()) << "a stop is no fault of a check";
    EXPECT_EQ(hand.asked, at);
  }
}

TEST(StoppedChecks, EndBeforeTheWoodThatPartsShareIsMeasured) {
  const DryFit shelves = fitOf(test::dowelledShelves(2), Basis::drawn);
  ASSERT_EQ(rowOf("interference"), 0);
  // The first question is put before any check, the second by this one.
  Hand hand{.stopAt = 2};
  CheckMemory memory;
  const auto stopped = checkPiece(shelves.piece, shelves.solids, hand.progress(), &memory);
  ASSERT_FALSE(stopped);
  EXPECT_EQ(stopped.error().code, ErrorCode::cancelled);
  EXPECT_EQ(hand.lastDone, 0);
  EXPECT_EQ(memory.overlaps.asked(), 0);
}

/// Rails that are cut already, and an opening that has become wider since.
ModelFile widerOpening() {
  ModelFile file = fileFrom(cupboardText());
  mark(file, "top_rail", MarkState::cut);
  mark(file, "bottom_rail", MarkState::cut);
  if (!file.setDimension("opening_width", "912")) ADD_FAILURE();
  return file;
}

TEST(StoppedChecks, EndInTheSearchForNumbersThatFitMadeParts) {
  const DryFit fit = fitOf(widerOpening().model());
  const auto numbers = freeNumbers(fit.piece.model);
  Hand whole;
  const auto changes = changesThatFit(fit.piece, whole.progress());
  ASSERT_TRUE(changes);
  ASSERT_FALSE(changes->empty());
  EXPECT_GE(whole.asked, static_cast<int>(numbers.size())) << "once a number at least";
  for (int at = 1; at <= whole.asked; ++at) {
    Hand hand{.stopAt = at};
    const auto stopped = changesThatFit(fit.piece, hand.progress());
    ASSERT_FALSE(stopped);
    EXPECT_EQ(stopped.error().code, ErrorCode::cancelled);
    EXPECT_EQ(hand.asked, at);
  }
}

TEST(StoppedChecks, OfMadePartsEndInMidSearch) {
  const DryFit fit = fitOf(widerOpening().model());
  const int locked = rowOf("locked");
  int within = 0, before = 0;
  const auto count = [&](int done, int) {
    before += done < locked ? 1 : 0;
    within += done == locked ? 1 : 0;
    return true;
  };
  ASSERT_TRUE(checkPiece(fit.piece, fit.solids, count));
  ASSERT_GT(within, 5);
  // Cores may take the work on pairs in any order, so the stop is set by the check.
  int left = within / 2;
  const auto half = [&](int done, int) { return done != locked || --left > 0; };
  const auto stopped = checkPiece(fit.piece, fit.solids, half);
  ASSERT_FALSE(stopped);
  EXPECT_EQ(stopped.error().code, ErrorCode::cancelled);
  EXPECT_EQ(left, 0);
}

TEST(StoppedChecks, EndTheListOfChangesThatTakeUpWhatIsOut) {
  const Model model = widerOpening().model();
  Hand whole;
  ASSERT_TRUE(absorptions(model, Basis::measured, whole.progress()));
  const int steps = 6;
  for (int i = 0; i < steps; ++i) {
    Hand hand{.stopAt = 1 + i * whole.asked / (2 * steps)};
    const auto stopped = absorptions(model, Basis::measured, hand.progress());
    ASSERT_FALSE(stopped);
    EXPECT_EQ(stopped.error().code, ErrorCode::cancelled);
  }
}

TEST(StoppedChecks, LeaveALiveFitAsGoodAsNew) {
  const Model model = widerOpening().model();
  const DryFit cold = fitOf(model);
  Hand whole;
  ASSERT_TRUE(LiveFit().update(model, Basis::measured, whole.progress()));
  LiveFit live;
  for (int at = 1; at < whole.asked; at += whole.asked / 8) {
    Hand hand{.stopAt = at};
    const auto stopped = live.update(model, Basis::measured, hand.progress());
    if (!stopped) {
      EXPECT_EQ(stopped.error().code, ErrorCode::cancelled);
    }
  }
  const auto again = live.update(model, Basis::measured);
  ASSERT_TRUE(again);
  EXPECT_TRUE((*again)->piece.parts == cold.piece.parts);
  EXPECT_TRUE((*again)->findings == cold.findings);
}

}  // namespace
}  // namespace dryfit::joinery

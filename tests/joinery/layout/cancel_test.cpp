// Long solves asked to stop. What is counted is how often they ask, never the time.

#include <gtest/gtest.h>

#include <random>

#include "joinery/layout/board_choice.h"
#include "joinery/layout/master_problem.h"

namespace dryfit::joinery::cutting {
namespace {

/// Triples out of 60 items of which each is in many: hard to choose 20 of that meet every item.
void addTriples(MasterProblem& master) {
  std::mt19937_64 random(5);
  for (int c = 0; c < 260; ++c) {
    MasterColumn column{0, 1.0 + static_cast<double>(random() % 7) / 100, {}};
    const int first = static_cast<int>(random() % 20);
    column.items = {{first, 1},
                    {20 + static_cast<int>(random() % 20), 1},
                    {40 + static_cast<int>(random() % 20), 1}};
    master.add(column);
  }
}

struct Asked {
  int times = 0, stopAt = 1 << 30;
  int afterStop = 0;
  bool goOn() {
    ++times;
    if (times > stopAt) ++afterStop;
    return times < stopAt;
  }
};

TEST(Cancelling, AWholeNumberSearchEndsItAtTheNextQuestion) {
  const std::vector<int> demands(60, 1), bins{60};
  const std::vector<double> missing(60, 30.0);
  const auto ask = [&](Asked& asked) {
    MasterProblem master(demands, bins, missing);
    master.askWhether([&asked] { return asked.goOn(); });
    addTriples(master);
    (void)master.relaxed();
    bool provedNone = true;
    const auto whole = master.whole(1e9, 400, true, &provedNone);
    if (asked.times >= asked.stopAt) {
      EXPECT_FALSE(provedNone);
      EXPECT_FALSE(whole && whole->proved);
    }
    return asked.times;
  };
  Asked unstopped;
  const int all = ask(unstopped);
  ASSERT_GT(all, 60) << "the search is to be long enough to be stopped in its middle";
  for (const int stopAt : {1, 2, 10, all / 2}) {
    SCOPED_TRACE(stopAt);
    Asked asked{0, stopAt};
    ask(asked);
    EXPECT_EQ(asked.times, stopAt);
    EXPECT_EQ(asked.afterStop, 0);
  }
}

TEST(Cancelling, AChoiceOfBoardsGivesABoundThatStillHolds) {
  std::mt19937_64 random(3);
  BoardChoice choice;
  for (int b = 0; b < 40; ++b) {
    choice.costs.push_back(30 + static_cast<double>(random() % 40));
    choice.counts.push_back(1);
  }
  for (int r = 0; r < 12; ++r) {
    CoverRule rule;
    for (int b = 0; b < 40; ++b) {
      rule.most.push_back(0.05 + static_cast<double>(random() % 1000) / 10'000);
    }
    choice.rules.push_back(std::move(rule));
  }
  Asked unstopped;
  ChoiceSearch search;
  search.goOn = [&] { return unstopped.goOn(); };
  const ChosenBoards best = chooseBoards(choice, search);
  ASSERT_FALSE(best.boards.empty());
  for (const int stopAt : {1, 3, std::max(2, unstopped.times / 2)}) {
    SCOPED_TRACE(stopAt);
    Asked asked{0, stopAt};
    search.goOn = [&] { return asked.goOn(); };
    const ChosenBoards stopped = chooseBoards(choice, search);
    EXPECT_LE(asked.times, stopAt);
    EXPECT_EQ(asked.afterStop, 0);
    EXPECT_LE(stopped.bound, best.bound * (1 + 1e-9));
  }
}

}  // namespace
}  // namespace dryfit::joinery::cutting

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>
#include <random>

#include "joinery/layout/board_search.h"
#include "joinery/layout/lay_out.h"
#include "tests/support/layout_check.h"
#include "tests/support/layout_random.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::joinery {
namespace {

using cutting::BoardWorth;
using cutting::Job;

Job jobOf(const std::vector<Blank>& blanks, const std::vector<int>& members, const StockList& stock,
          const LayoutSettings& settings) {
  std::vector<std::string> apart;
  for (const Blank& blank : blanks) apart.push_back(blank.match);
  return cutting::makeJob(blanks, members, stock, std::vector<int>(stock.items.size(), 0), settings,
                          apart);
}

/// Whatever lies on a board in a layout is worth no more, at any prices, than the board may be.
void expectWorthBounds(const Layout& layout, const StockList& stock, std::mt19937_64& random) {
  std::vector<int> members;
  for (std::size_t b = 0; b < layout.blanks.size(); ++b) {
    const Blank &blank = layout.blanks[b], &first = layout.blanks[0];
    if (blank.form == StockForm::board && blank.material == first.material &&
        blank.species == first.species) {
      members.push_back(static_cast<int>(b));
    }
  }
  if (members.empty()) return;
  const Job job = jobOf(layout.blanks, members, stock, layout.settings);
  std::vector<int> counts, itemOf(layout.blanks.size(), -1);
  for (std::size_t i = 0; i < job.items.size(); ++i) {
    counts.push_back(job.items[i].demand());
    for (const auto& copy : job.items[i].copies) {
      itemOf[static_cast<std::size_t>(copy[0])] = static_cast<int>(i);
    }
  }
  const BoardWorth worth(job, counts);
  for (int round = 0; round < 3; ++round) {
    std::vector<double> prices;
    for (const auto& item : job.items) {
      const double share = std::uniform_real_distribution<double>(0, 1)(random);
      prices.push_back(round == 0 ? item.area : share < 0.3 ? 0 : share * 100);
    }
    const std::vector<double> allCuts = worth.allByCuts(prices),
                              allSlices = worth.allBySlices(prices);
    for (const StockLayout& one : layout.stock) {
      double value = 0;
      for (const PlacedBlank& placed : one.blanks) {
        const int item = itemOf[static_cast<std::size_t>(placed.blank)];
        if (item >= 0) value += prices[static_cast<std::size_t>(item)];
      }
      for (std::size_t b = 0; b < job.bins.size(); ++b) {
        if (job.bins[b].stock != one.item) continue;
        const double slack = 1e-9 * (1 + value);
        EXPECT_GE(worth.byCuts(static_cast<int>(b), prices).value, value - slack);
        EXPECT_GE(worth.bySlices(static_cast<int>(b), prices).value, value - slack);
        EXPECT_GE(allCuts[b], value - slack);
        EXPECT_GE(allSlices[b], value - slack);
      }
    }
  }
}

TEST(BoardWorth, IsNeverLessThanWhatALayoutCutsFromTheBoard) {
  for (int n = 0; n < test::repetitions(400); ++n) {
    const std::uint64_t seed = test::seed() + 20'000'000 + static_cast<std::uint64_t>(n);
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937_64 random(seed);
    const test::LayoutJob job =
        n % 40 == 0 ? test::randomBoardJob(random) : test::randomLayoutJob(random, 16);
    LayoutSettings settings = job.settings;
    settings.effort = 5;
    const auto layout = layOut(job.blanks, job.stock, settings);
    ASSERT_TRUE(layout);
    expectWorthBounds(*layout, job.stock, random);
  }
}

// By arithmetic: two boards hold 2 parts each, the third holds 3; 5 parts need the third and one
// more, the cheaper of the two.
TEST(BoardChoice, BoundsTheCostByWholeBoards) {
  std::vector<Blank> blanks(5);
  for (std::size_t b = 0; b < blanks.size(); ++b) {
    blanks[b].name = "stile " + std::to_string(b);
    blanks[b].material = "oak";
    blanks[b].species = "white oak";
    blanks[b].length = 900;
    blanks[b].width = 100;
    blanks[b].thickness = 22;
  }
  StockList stock;
  const auto add = [&](const char* name, double length, double price) {
    StockItem item;
    item.name = name;
    item.species = "white oak";
    item.length = length;
    item.nearWidth = 150;
    item.farWidth = 140;  // a taper, so that no simpler way decides
    item.thickness = 27;
    item.price = price;
    stock.items.push_back(item);
  };
  add("a", 2100, 20);
  add("b", 2400, 18);
  add("c", 3000, 40);
  const Layout layout = layOut(blanks, stock, {}).value();
  EXPECT_TRUE(layout.unplaced.empty());
  EXPECT_DOUBLE_EQ(layout.materials[0].cost, 58);
  EXPECT_DOUBLE_EQ(layout.materials[0].bound, 58);
}

TEST(BoardLayout, OfAWorkshopJobCanBeCutAndIsTheSameTwice) {
  for (int n = 0; n < test::repetitions(4); ++n) {
    const std::uint64_t seed = test::seed() + 21'000'000 + static_cast<std::uint64_t>(n);
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937_64 random(seed);
    const test::LayoutJob job = test::randomBoardJob(random);
    LayoutSettings settings = job.settings;
    settings.effort = 20;
    const Layout one = layOut(job.blanks, job.stock, settings).value();
    const Layout two = layOut(job.blanks, job.stock, settings).value();
    EXPECT_EQ(test::faultsOf(one, job.stock), std::vector<std::string>{});
    ASSERT_EQ(one.stock.size(), two.stock.size());
    for (std::size_t s = 0; s < one.stock.size(); ++s) {
      EXPECT_EQ(one.stock[s].item, two.stock[s].item);
      ASSERT_EQ(one.stock[s].blanks.size(), two.stock[s].blanks.size());
      for (std::size_t b = 0; b < one.stock[s].blanks.size(); ++b) {
        EXPECT_EQ(one.stock[s].blanks[b].at, two.stock[s].blanks[b].at);
      }
    }
    EXPECT_DOUBLE_EQ(one.materials[0].bound, two.materials[0].bound);
  }
}

TEST(BoardLayout, TakesTheTrimsThatTheStockListTells) {
  Blank blank;
  blank.name = "rail";
  blank.material = "oak";
  blank.species = "white oak";
  blank.length = 980;
  blank.width = 148;
  blank.thickness = 22;
  StockList stock;
  stock.items.emplace_back();
  StockItem& item = stock.items[0];
  item.name = "board";
  item.species = "white oak";
  item.length = 1000;
  item.nearWidth = item.farWidth = 150;
  item.thickness = 27;
  EXPECT_EQ(layOut({blank}, stock, {}).value().unplaced.size(), 1U);
  stock.boardEndTrim = 10;
  stock.boardEdgeTrim = 1;
  const Layout layout = layOut({blank}, stock, {}).value();
  EXPECT_TRUE(layout.unplaced.empty());
  EXPECT_EQ(layout.settings.boardEndTrim, 10);
  EXPECT_EQ(layout.settings.boardEdgeTrim, 1);
  EXPECT_EQ(test::faultsOf(layout, stock), std::vector<std::string>{});
}

}  // namespace
}  // namespace dryfit::joinery

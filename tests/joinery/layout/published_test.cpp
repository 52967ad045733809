// Instances whose optimum is known. They are not part of the project: they are read from the folder
// in DRYFIT_DATASETS, else ../shared/datasets beside the source folder, and skipped without it.

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>

#include "joinery/layout/cutting_stock.h"
#include "joinery/layout/guillotine_knapsack.h"
#include "joinery/layout/limited_knapsack.h"
#include "tests/support/cutting_instances.h"

namespace dryfit::joinery::cutting {
namespace {

double valueOf(const std::vector<CutRect>& pattern, const std::vector<WorthRect>& items) {
  return std::accumulate(pattern.begin(), pattern.end(), 0.0, [&](double sum, const CutRect& cut) {
    return sum + items[static_cast<std::size_t>(cut.item)].value;
  });
}

void expectSound(const std::vector<Area>& areas, Size length, Size width) {
  for (std::size_t i = 0; i < areas.size(); ++i) {
    EXPECT_TRUE(areas[i].x >= 0 && areas[i].y >= 0 && areas[i].farX() <= length &&
                areas[i].farY() <= width);
    for (std::size_t j = 0; j < i; ++j) {
      EXPECT_TRUE(areas[i].farX() <= areas[j].x || areas[j].farX() <= areas[i].x ||
                  areas[i].farY() <= areas[j].y || areas[j].farY() <= areas[i].y);
    }
  }
}

// J. E. Beasley, Journal of the Operational Research Society 36 (1985) 297-306, instances gcut2 and
// gcut13; the optima recomputed by exact dynamic programming.
class Beasley : public testing::TestWithParam<std::pair<const char*, double>> {};

TEST_P(Beasley, IsCutToItsOptimum) {
  const auto instance = test::readWorthRects(GetParam().first);
  if (!instance) GTEST_SKIP() << "no " << GetParam().first << " in " << test::datasetFolder();
  const auto table =
      GuillotineKnapsack::solve(instance->items, instance->length, instance->width, 8000, true);
  ASSERT_TRUE(table);
  EXPECT_EQ(table->value(), GetParam().second);
  const std::vector<CutRect> pattern = table->pattern();
  EXPECT_EQ(valueOf(pattern, instance->items), GetParam().second);
  std::vector<Area> areas;
  for (const CutRect& cut : pattern) areas.push_back(cut.area);
  expectSound(areas, instance->length, instance->width);
}

INSTANTIATE_TEST_SUITE_P(Guillotine, Beasley,
                         testing::Values(std::pair{"gcut2.txt", 60536.0},
                                         std::pair{"gcut13.txt", 8997780.0}));

// N. Christofides and C. Whitlock, Operations Research 25 (1977) 30-44, instance cgcut1: 244.
TEST(ChristofidesWhitlock, FirstProblemIsCutToItsOptimum) {
  const auto instance = test::readLimitedItems("cgcut1.txt");
  if (!instance) GTEST_SKIP() << "no cgcut1.txt in " << test::datasetFolder();
  const LimitedPattern best = limitedKnapsack(instance->items, instance->length, instance->width);
  EXPECT_EQ(best.value, 244);
  EXPECT_TRUE(best.exact);
  std::vector<Area> areas;
  std::vector<int> copies(instance->items.size(), 0);
  for (const LimitedRect& rect : best.rects) {
    areas.push_back(rect.area);
    ++copies[static_cast<std::size_t>(rect.item)];
  }
  expectSound(areas, instance->length, instance->width);
  for (std::size_t i = 0; i < copies.size(); ++i) EXPECT_LE(copies[i], instance->items[i].copies);
}

// E. Falkenauer, Journal of Heuristics 2 (1996) 5-30, "triplets" of 60 items: 20 bins each by the
// way they were made.
TEST(Falkenauer, TripletsAreCutFromTwentyBarsEach) {
  const auto instances = test::readBars("binpack5.txt");
  if (!instances) GTEST_SKIP() << "no binpack5.txt in " << test::datasetFolder();
  ASSERT_EQ(instances->size(), 20u);
  for (const test::BarInstance& instance : *instances) {
    SCOPED_TRACE(instance.name);
    const std::vector<BarKind> kinds{{instance.room, 1, 60}};
    const BarAnswer answer = cutBars(kinds, instance.items);
    EXPECT_EQ(answer.cost, 20);
    EXPECT_EQ(answer.bars.size(), 20u);
    EXPECT_GT(answer.bound, 19.999999);
    EXPECT_TRUE(answer.proved);
    std::vector<int> cut(instance.items.size(), 0);
    for (const BarPattern& bar : answer.bars) {
      Size used = 0;
      for (std::size_t i = 0; i < cut.size(); ++i) {
        cut[i] += bar.counts[i];
        used += bar.counts[i] * instance.items[i].size;
      }
      EXPECT_LE(used, instance.room);
    }
    for (std::size_t i = 0; i < cut.size(); ++i) EXPECT_EQ(cut[i], instance.items[i].demand);
  }
}

}  // namespace
}  // namespace dryfit::joinery::cutting

// How fast published cutting problems are solved and how near to their optimum, beside what simple
// rules reach: first-fit decreasing along bars, shelves on a sheet. The instances are read from the
// folder in DRYFIT_DATASETS, else ../shared/datasets beside the sources, and skipped without it.
// Each line tells `value`, `best` (best known) and `off` (percent away from it).
// Run: layout_benchmark

#include <benchmark/benchmark.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>

#include "joinery/layout/cutting_stock.h"
#include "joinery/layout/guillotine_knapsack.h"
#include "joinery/layout/lay_out.h"
#include "joinery/layout/limited_knapsack.h"
#include "joinery/layout/pattern.h"
#include "tests/support/cutting_instances.h"
#include "tests/support/layout_random.h"

namespace dryfit::joinery::cutting {
namespace {

void tell(benchmark::State& state, double value, double best) {
  state.counters["value"] = value;
  state.counters["best"] = best;
  state.counters["off"] = 100 * std::abs(best - value) / best;
}

/// Shelves from the near end, each as long as its first part, the parts by falling length.
double byShelves(std::vector<LimitedItem> items, Size length, Size width) {
  std::stable_sort(items.begin(), items.end(), [](const LimitedItem& a, const LimitedItem& b) {
    return a.poses[0].first > b.poses[0].first;
  });
  double value = 0;
  Size used = 0;
  while (true) {
    Size shelf = 0, filled = 0;
    for (LimitedItem& item : items) {
      const auto [l, w] = item.poses[0];
      while (item.copies > 0 && used + std::max(shelf, l) <= length && filled + w <= width) {
        shelf = std::max(shelf, l);
        filled += w;
        --item.copies;
        value += item.value;
      }
    }
    if (shelf == 0) return value;
    used += shelf;
  }
}

std::vector<LimitedItem> unlimited(const test::WorthRectInstance& instance) {
  std::vector<LimitedItem> items;
  for (const WorthRect& item : instance.items) {
    items.push_back({{{item.length, item.width}}, 1'000'000, item.value});
  }
  return items;
}

void guillotine(benchmark::State& state, const char* file, double best) {
  const auto instance = test::readWorthRects(file);
  if (!instance) return state.SkipWithError("instance not found");
  double value = 0;
  for (auto run : state) {
    const auto table =
        GuillotineKnapsack::solve(instance->items, instance->length, instance->width, 8000, true);
    value = table->value();
    benchmark::DoNotOptimize(table->pattern());
  }
  tell(state, value, best);
}

void guillotineByShelves(benchmark::State& state, const char* file, double best) {
  const auto instance = test::readWorthRects(file);
  if (!instance) return state.SkipWithError("instance not found");
  double value = 0;
  for (auto run : state) value = byShelves(unlimited(*instance), instance->length, instance->width);
  tell(state, value, best);
}

void limited(benchmark::State& state) {
  const auto instance = test::readLimitedItems("cgcut1.txt");
  if (!instance) return state.SkipWithError("instance not found");
  double value = 0;
  for (auto run : state) {
    value = limitedKnapsack(instance->items, instance->length, instance->width).value;
  }
  tell(state, value, 244);
}

void limitedByShelves(benchmark::State& state) {
  const auto instance = test::readLimitedItems("cgcut1.txt");
  if (!instance) return state.SkipWithError("instance not found");
  double value = 0;
  for (auto run : state) value = byShelves(instance->items, instance->length, instance->width);
  tell(state, value, 244);
}

int firstFitDecreasing(const test::BarInstance& instance) {
  std::vector<Size> bars;
  for (auto item = instance.items.rbegin(); item != instance.items.rend(); ++item) {
    for (int c = 0; c < item->demand; ++c) {
      const auto bar =
          std::find_if(bars.begin(), bars.end(), [&](Size left) { return left >= item->size; });
      if (bar == bars.end()) {
        bars.push_back(instance.room - item->size);
      } else {
        *bar -= item->size;
      }
    }
  }
  return static_cast<int>(bars.size());
}

/// All 20 triplet problems: the sum of bars, of which 400 are the fewest.
void bars(benchmark::State& state) {
  const auto instances = test::readBars("binpack5.txt");
  if (!instances) return state.SkipWithError("instance not found");
  double value = 0;
  for (auto run : state) {
    value = 0;
    for (const test::BarInstance& instance : *instances) {
      const std::vector<BarKind> kinds{{instance.room, 1, 60}};
      value += cutBars(kinds, instance.items).cost;
    }
  }
  tell(state, value, 400);
}

void barsFirstFit(benchmark::State& state) {
  const auto instances = test::readBars("binpack5.txt");
  if (!instances) return state.SkipWithError("instance not found");
  double value = 0;
  for (auto run : state) {
    value = 0;
    for (const test::BarInstance& instance : *instances) value += firstFitDecreasing(instance);
  }
  tell(state, value, 400);
}

/// A kitchen's worth of carcass parts of our own invention from plywood sheets, all through layOut.
void wholeJob(benchmark::State& state) {
  std::vector<Blank> blanks;
  const double sizes[][2] = {{720, 560}, {720, 300}, {568, 560}, {568, 100}, {716, 396},
                             {450, 145}, {520, 120}, {884, 560}, {300, 280}, {640, 310}};
  for (int i = 0; i < 50; ++i) {
    Blank blank;
    blank.name = "part " + std::to_string(i);
    blank.material = blank.species = "birch plywood";
    blank.form = StockForm::sheet;
    blank.length = sizes[i % 10][0];
    blank.width = sizes[i % 10][1];
    blank.thickness = 18;
    blank.grain = i % 3 == 0 ? Grain::none : Grain::length;
    blanks.push_back(blank);
  }
  StockList stock;
  StockItem sheet;
  sheet.name = "sheet";
  sheet.form = StockForm::sheet;
  sheet.species = "birch plywood";
  sheet.length = 2500;
  sheet.nearWidth = sheet.farWidth = 1250;
  sheet.thickness = 18;
  sheet.count = 20;
  stock.items = {sheet};
  double value = 0, bound = 0;
  for (auto run : state) {
    const Layout layout = layOut(blanks, stock, {}).value();
    value = layout.materials[0].cost;
    bound = layout.materials[0].bound;
  }
  tell(state, value, bound);
}

/// Boards from that with the cheapest wood on, each filled with the longest parts that still fit.
double byLongestFirst(const test::LayoutJob& job) {
  std::vector<int> members(job.blanks.size());
  std::iota(members.begin(), members.end(), 0);
  std::vector<std::string> apart;
  const Job cut = makeJob(job.blanks, members, job.stock,
                          std::vector<int>(job.stock.items.size(), 0), job.settings, apart);
  std::vector<int> boards(cut.bins.size()), items(cut.items.size()), left;
  std::iota(boards.begin(), boards.end(), 0);
  std::iota(items.begin(), items.end(), 0);
  const auto rate = [&](int b) {
    const Bin& bin = cut.bins[static_cast<std::size_t>(b)];
    return bin.cost / bin.area;
  };
  std::stable_sort(boards.begin(), boards.end(), [&](int a, int b) { return rate(a) < rate(b); });
  const auto length = [&](int i) {
    return cut.items[static_cast<std::size_t>(i)].parts[0][0][0].length;
  };
  std::stable_sort(items.begin(), items.end(), [&](int a, int b) { return length(a) > length(b); });
  for (const int i : items) {
    left.insert(left.end(),
                static_cast<std::size_t>(cut.items[static_cast<std::size_t>(i)].demand()), i);
  }
  double cost = 0;
  std::int64_t work = 0;
  for (const int b : boards) {
    const Pattern pattern = fillByCuts(cut, b, left, {}, work);
    if (!pattern.counts.empty()) cost += cut.bins[static_cast<std::size_t>(b)].cost;
    for (const auto& [item, count] : pattern.counts) {
      const auto from = std::find(left.begin(), left.end(), item);
      left.erase(from, from + count);
    }
  }
  return left.empty() ? cost : std::nan("");
}

constexpr int kBoardJobs = 12;
test::LayoutJob boardJob(int number) {
  std::mt19937_64 random(static_cast<std::uint64_t>(number) + 1);
  return test::randomBoardJob(random);
}

/// Twelve random jobs from random boards: costs together, above their lower bounds together.
void boardJobs(benchmark::State& state) {
  double value = 0, bound = 0;
  for (auto run : state) {
    value = bound = 0;
    for (int n = 0; n < kBoardJobs; ++n) {
      const test::LayoutJob job = boardJob(n);
      const Layout layout = layOut(job.blanks, job.stock, job.settings).value();
      value += layout.unplaced.empty() ? layout.materials[0].cost : std::nan("");
      bound += layout.materials[0].bound;
    }
  }
  tell(state, value, bound);
}

/// The same by a simple rule, against the same bounds, which are worked out beforehand.
void boardJobsByLongestFirst(benchmark::State& state) {
  double value = 0, bound = 0;
  for (int n = 0; n < kBoardJobs; ++n) {
    const test::LayoutJob job = boardJob(n);
    bound += layOut(job.blanks, job.stock, job.settings).value().materials[0].bound;
  }
  for (auto run : state) {
    value = 0;
    for (int n = 0; n < kBoardJobs; ++n) value += byLongestFirst(boardJob(n));
  }
  tell(state, value, bound);
}

BENCHMARK_CAPTURE(guillotine, gcut2, "gcut2.txt", 60536)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(guillotineByShelves, gcut2, "gcut2.txt", 60536)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(guillotine, gcut13, "gcut13.txt", 8997780)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(guillotineByShelves, gcut13, "gcut13.txt", 8997780)
    ->Unit(benchmark::kMillisecond);
BENCHMARK(limited)->Unit(benchmark::kMillisecond);
BENCHMARK(limitedByShelves)->Unit(benchmark::kMillisecond);
BENCHMARK(bars)->Unit(benchmark::kMillisecond)->Iterations(1);
BENCHMARK(barsFirstFit)->Unit(benchmark::kMillisecond);
BENCHMARK(wholeJob)->Unit(benchmark::kMillisecond)->Iterations(1)->MeasureProcessCPUTime();
BENCHMARK(boardJobs)->Unit(benchmark::kMillisecond)->Iterations(1)->MeasureProcessCPUTime();
BENCHMARK(boardJobsByLongestFirst)->Unit(benchmark::kMillisecond)->Iterations(1);

}  // namespace
}  // namespace dryfit::joinery::cutting

BENCHMARK_MAIN();

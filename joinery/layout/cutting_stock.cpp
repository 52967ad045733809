#include "joinery/layout/cutting_stock.h"

#include <algorithm>
#include <numeric>
#include <optional>
#include <utility>

#include "joinery/layout/bar_knapsack.h"
#include "joinery/layout/master_problem.h"
#include "joinery/layout/price_bound.h"

namespace dryfit::joinery::cutting {
namespace {

constexpr double kTiny = 1e-9;
constexpr int kRoundsMost = 400;
constexpr int kValueRounds = 30;

/// All patterns of a bar that are worth at least so much at given prices.
class PatternLister {
 public:
  PatternLister(const std::vector<double>& prices, std::span<const BarItem> items)
      : prices_(prices), items_(items), order_(items.size()), counts_(items.size(), 0) {
    std::iota(order_.begin(), order_.end(), std::size_t{0});
    std::stable_sort(order_.begin(), order_.end(), [&](std::size_t a, std::size_t b) {
      return prices[a] * static_cast<double>(items[b].size) >
             prices[b] * static_cast<double>(items[a].size);
    });
  }

  /// Only those that leave `wasteMost` of the bar at most. False when there are more than `most` or
  /// finding them takes too long.
  bool list(Size room, double wasteMost, double worth, std::size_t most,
            std::vector<std::vector<int>>& patterns) {
    most_ = most;
    wasteMost_ = wasteMost;
    steps_ = 200 * static_cast<long>(most);
    return extend(0, room, worth, patterns);
  }

 private:
  bool extend(std::size_t at, Size room, double worth, std::vector<std::vector<int>>& patterns) {
    if (--steps_ < 0) return false;
    if (at == order_.size()) {
      if (worth > kTiny || static_cast<double>(room) > wasteMost_) return true;
      patterns.push_back(counts_);
      return patterns.size() <= most_;
    }
    const std::size_t i = order_[at];
    const double density = prices_[i] / static_cast<double>(items_[i].size);
    if (density * static_cast<double>(room) < worth - kTiny) return true;
    const int fitting = static_cast<int>(std::min<Size>(items_[i].demand, room / items_[i].size));
    for (int copies = fitting; copies >= 0; --copies) {
      counts_[i] = copies;
      if (!extend(at + 1, room - copies * items_[i].size, worth - copies * prices_[i], patterns)) {
        counts_[i] = 0;
        return false;
      }
    }
    return true;
  }

  const std::vector<double>& prices_;
  std::span<const BarItem> items_;
  std::vector<std::size_t> order_;
  std::vector<int> counts_;
  std::size_t most_ = 0;
  double wasteMost_ = 0;
  long steps_ = 0;
};

class Cutter {
 public:
  Cutter(std::span<const BarKind> kinds, std::span<const BarItem> items, const BarSearch& search)
      : kinds_(kinds), items_(items), search_(search) {
    for (const BarKind& kind : kinds) {
      longest_ = std::max(longest_, kind.room);
      allCosts_ += kind.cost * kind.count;
    }
    // Leaving anything out is worse than any cost of stock.
    for (const BarItem& item : items) {
      missingCost_.push_back((allCosts_ + 1) *
                             (1 + static_cast<double>(item.size) / static_cast<double>(longest_)));
    }
  }

  BarAnswer run() {
    byValues();
    if (!goOn()) return finish();
    generate();
    if (!closed() && goOn()) reachBound();
    if (!closed() && goOn()) choose();
    if (!closed() && goOn()) prove();
    return finish();
  }

 private:
  [[nodiscard]] bool goOn() const { return !search_.goOn || search_.goOn(); }
  [[nodiscard]] bool closed() const { return full_ <= bound_ * (1 + kTiny); }
  BarAnswer finish() {
    best_.bound = std::min(bound_, best_.cost);
    const bool all =
        std::all_of(best_.missing.begin(), best_.missing.end(), [](int m) { return m == 0; });
    best_.proved = all && (proved_ || closed());
    return best_;
  }

  /// Takes an answer given as bars, drops what is cut too often, and keeps it if it is the best.
  void consider(std::vector<BarPattern> bars) {
    BarAnswer answer;
    answer.missing.reserve(items_.size());
    for (const BarItem& item : items_) answer.missing.push_back(item.demand);
    double full = 0;
    for (BarPattern& bar : bars) {
      bool used = false;
      for (std::size_t i = 0; i < items_.size(); ++i) {
        bar.counts[i] = std::min(bar.counts[i], answer.missing[i]);
        answer.missing[i] -= bar.counts[i];
        used = used || bar.counts[i] > 0;
      }
      if (!used) continue;
      answer.cost += kinds_[static_cast<std::size_t>(bar.kind)].cost;
      answer.bars.push_back(std::move(bar));
    }
    full = answer.cost;
    for (std::size_t i = 0; i < items_.size(); ++i) full += answer.missing[i] * missingCost_[i];
    if (best_.missing.empty() || full < full_ - kTiny) {
      full_ = full;
      best_ = std::move(answer);
    }
  }

  void addColumn(MasterProblem& master, int kind, const std::vector<int>& counts) {
    MasterColumn column{kind, kinds_[static_cast<std::size_t>(kind)].cost, {}};
    for (std::size_t i = 0; i < counts.size(); ++i) {
      if (counts[i] > 0) column.items.emplace_back(static_cast<int>(i), counts[i]);
    }
    master.add(column);
    patterns_.push_back({kind, counts});
  }

  /// One bar after another, each filled with what is worth most; what filled badly is worth more
  /// in the next round. (Sequential value correction; E. Mukhacheva and others.)
  void byValues() {
    std::vector<double> values;
    for (const BarItem& item : items_) values.push_back(static_cast<double>(item.size));
    for (int round = 0; round < kValueRounds; ++round) {
      std::vector<int> left, bins;
      for (const BarItem& item : items_) left.push_back(item.demand);
      for (const BarKind& kind : kinds_) bins.push_back(kind.count);
      std::vector<BarPattern> bars;
      while (std::optional<BarPattern> bar = nextBar(values, left, bins)) {
        const double room = static_cast<double>(kinds_[static_cast<std::size_t>(bar->kind)].room);
        double used = 0;
        for (std::size_t i = 0; i < items_.size(); ++i) {
          left[i] -= bar->counts[i];
          used += static_cast<double>(bar->counts[i] * items_[i].size);
        }
        for (std::size_t i = 0; i < items_.size(); ++i) {
          if (bar->counts[i] == 0) continue;
          const double corrected = static_cast<double>(items_[i].size) * room / used;
          values[i] = 0.75 * values[i] + 0.25 * corrected * (1 + 0.02 * (round % 5));
        }
        --bins[static_cast<std::size_t>(bar->kind)];
        start_.push_back(*bar);
        bars.push_back(std::move(*bar));
      }
      consider(std::move(bars));
      if (!goOn()) return;
    }
  }

  std::optional<BarPattern> nextBar(const std::vector<double>& values, const std::vector<int>& left,
                                    const std::vector<int>& bins) const {
    std::vector<WorthLength> wanted;
    for (std::size_t i = 0; i < items_.size(); ++i) {
      wanted.push_back({items_[i].size, values[i], left[i]});
    }
    const BarKnapsack knapsack(wanted, longest_, 4'000);
    std::optional<BarPattern> best;
    double bestRatio = 0;
    for (std::size_t k = 0; k < kinds_.size(); ++k) {
      const double value = knapsack.value(kinds_[k].room);
      if (bins[k] <= 0 || value <= 0) continue;
      const double ratio = value / std::max(kinds_[k].cost, kTiny);
      if (best && ratio <= bestRatio) continue;
      bestRatio = ratio;
      best = BarPattern{static_cast<int>(k), {}};
    }
    if (best) best->counts = knapsack.counts(kinds_[static_cast<std::size_t>(best->kind)].room);
    return best;
  }

  /// Patterns that the relaxed problem gains from, until there are none; then its bound.
  void generate() {
    std::vector<int> demands, counts;
    for (const BarItem& item : items_) demands.push_back(item.demand);
    for (const BarKind& kind : kinds_) counts.push_back(kind.count);
    master_.emplace(demands, counts, missingCost_);
    if (search_.goOn) master_->askWhether(search_.goOn);
    for (const BarPattern& bar : start_) addColumn(*master_, bar.kind, bar.counts);
    for (int round = 0; round < kRoundsMost && goOn(); ++round) {
      const auto prices = master_->relaxed();
      if (!prices) return;
      prices_ = *prices;
      std::vector<WorthLength> wanted;
      double total = 0;
      for (std::size_t i = 0; i < items_.size(); ++i) {
        wanted.push_back({items_[i].size, prices->item[i], items_[i].demand});
        total += prices->item[i] * items_[i].demand;
      }
      const BarKnapsack knapsack(wanted, longest_);
      std::vector<PricedBin> bins;
      bool gained = false;
      for (std::size_t k = 0; k < kinds_.size(); ++k) {
        bins.push_back({kinds_[k].cost, kinds_[k].count, knapsack.bound(kinds_[k].room)});
        if (knapsack.value(kinds_[k].room) > kinds_[k].cost + prices->bin[k] + 1e-7) {
          addColumn(*master_, static_cast<int>(k), knapsack.counts(kinds_[k].room));
          gained = true;
        }
      }
      const double bound = priceBound(total, bins);
      relaxedBound_ = std::max(relaxedBound_, bound);
      bound_ = std::max(bound_, roundedUp(bound * (1 - kTiny), bins));
      if (!gained || closed()) return;
    }
  }

  void choose() {
    const auto whole = master_->whole(full_ - 1e-6, search_.nodesMost);
    if (whole) considerCopies(whole->copies);
  }

  void considerCopies(const std::vector<int>& copies) {
    std::vector<BarPattern> bars;
    for (std::size_t c = 0; c < copies.size(); ++c) {
      for (int n = 0; n < copies[c]; ++n) bars.push_back(patterns_[c]);
    }
    consider(std::move(bars));
  }

  /// A better answer uses only patterns whose worth falls short of their cost by less than it is
  /// better than the relaxed value. With all of those at hand the whole-number search decides.
  void reachBound() {
    if (const auto prices = master_->relaxed()) tryGap(*prices, bound_ - prices->value + 1e-6);
  }
  void prove() {
    if (const auto prices = master_->relaxed()) tryGap(*prices, full_ - prices->value);
  }

  void tryGap(const MasterPrices& prices, double gap) {
    std::vector<int> demands, counts;
    for (const BarItem& item : items_) demands.push_back(item.demand);
    for (const BarKind& kind : kinds_) counts.push_back(kind.count);
    MasterProblem all(demands, counts, missingCost_);
    if (search_.goOn) all.askWhether(search_.goOn);
    const std::vector<BarPattern> generated = std::exchange(patterns_, {});
    PatternLister lister(prices.item, items_);
    // Sizes themselves are prices too, at the rate of the cheapest wood; what a better answer
    // wastes is limited by them.
    double rate = 1e300, sizes = 0;
    for (const BarKind& kind : kinds_) {
      rate = std::min(rate, kind.cost / static_cast<double>(std::max<Size>(kind.room, 1)));
    }
    for (const BarItem& item : items_) sizes += static_cast<double>(item.size) * item.demand;
    const double spare = prices.value + gap - rate * sizes + 1e-6;
    for (std::size_t k = 0; k < kinds_.size(); ++k) {
      std::vector<std::vector<int>> found;
      const double worth = kinds_[k].cost + prices.bin[k] - gap;
      const auto room = static_cast<double>(kinds_[k].room);
      // cost - rate · used <= spare
      const double wasteMost = rate > 0 ? room - (kinds_[k].cost - spare) / rate : room;
      if (!lister.list(kinds_[k].room, wasteMost, worth,
                       static_cast<std::size_t>(search_.patternsMost), found)) {
        patterns_ = generated;
        return;
      }
      for (const auto& pattern : found) addColumn(all, static_cast<int>(k), pattern);
    }
    bool none = false;
    const auto whole = all.whole(full_ - 1e-6, search_.nodesMost, all.columns() <= 3'000, &none);
    if (whole) considerCopies(whole->copies);
    patterns_ = generated;
    const bool covers = gap >= full_ - prices.value - 1e-6;
    if ((whole && whole->proved && covers) || (none && covers)) proved_ = true;
  }

  std::span<const BarKind> kinds_;
  std::span<const BarItem> items_;
  const BarSearch& search_;
  Size longest_ = 1;
  double allCosts_ = 0;
  std::vector<double> missingCost_;
  std::vector<BarPattern> start_, patterns_;
  std::optional<MasterProblem> master_;
  MasterPrices prices_;
  BarAnswer best_;
  double full_ = 0, bound_ = 0, relaxedBound_ = 0;
  bool proved_ = false;
};

}  // namespace

BarAnswer cutBars(std::span<const BarKind> kinds, std::span<const BarItem> items,
                  const BarSearch& search) {
  return Cutter(kinds, items, search).run();
}

}  // namespace dryfit::joinery::cutting

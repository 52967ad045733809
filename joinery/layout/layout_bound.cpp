#include "joinery/layout/layout_bound.h"

#include <algorithm>
#include <array>
#include <map>

#include "joinery/layout/guillotine_knapsack.h"
#include "joinery/layout/price_bound.h"

namespace dryfit::joinery::cutting {
namespace {

constexpr int kPointsMost = 360;

/// The most that bins of one grain are worth at given prices, by their sizes.
class WorthTable {
 public:
  WorthTable(const Job& job, const std::vector<int>& counts, const std::vector<double>& prices,
             Grain grain)
      : kerf_(job.kerf()) {
    Size length = 1, width = 1;
    for (const Bin& bin : job.bins) {
      if (bin.grain != grain) continue;
      length = std::max(length, bin.wood.usable().length + kerf_);
      width = std::max(width, bin.wood.usable().width + kerf_);
    }
    for (int attempt = 0; attempt < 2 && !table_; ++attempt) {
      if (attempt == 1) {
        // Everything rounded down: what fits still fits.
        grid_ = {std::max<Size>(1, length / (kPointsMost - 2)),
                 std::max<Size>(1, width / (kPointsMost - 2))};
      }
      std::vector<WorthRect> rects;
      for (std::size_t i = 0; i < job.items.size(); ++i) {
        if (counts[i] == 0 || prices[i] <= 0) continue;
        addItem(job.items[i], prices[i], grain, rects);
      }
      table_ =
          GuillotineKnapsack::solve(rects, length / grid_[0], width / grid_[1], kPointsMost, false);
    }
  }

  [[nodiscard]] double most(const Bin& bin) const {
    if (!table_) return 1e300;
    return table_->value((bin.wood.usable().length + kerf_) / grid_[0],
                         (bin.wood.usable().width + kerf_) / grid_[1]);
  }

 private:
  /// An item of several rectangles gives each of them its share of the price.
  void addItem(const Item& item, double price, Grain grain, std::vector<WorthRect>& rects) const {
    for (const auto& part : item.parts) {
      for (const Pose& pose : part[static_cast<std::size_t>(grain)]) {
        double area = 0;
        for (const PoseMember& member : pose.members) area += member.at.area();
        const Size l = std::max<Size>(1, (pose.length + kerf_) / grid_[0]);
        const Size w = std::max<Size>(1, (pose.width + kerf_) / grid_[1]);
        rects.push_back({l, w, price * area / item.area});
      }
    }
  }

  Size kerf_;
  std::array<Size, 2> grid_{1, 1};
  std::optional<GuillotineKnapsack> table_;
};

struct Bounder {
  const Job& job;
  const std::vector<int>& counts;
  bool search;

  /// `areas`: the prices are areas, of which a bin holds no more than its own.
  [[nodiscard]] double bound(const std::vector<double>& prices, bool table, bool areas) const {
    double total = 0;
    for (std::size_t i = 0; i < prices.size(); ++i) total += prices[i] * counts[i];
    std::map<Grain, WorthTable> tables;
    std::vector<PricedBin> bins;
    for (std::size_t b = 0; b < job.bins.size(); ++b) {
      const Bin& bin = job.bins[b];
      double most = 0;
      for (std::size_t i = 0; i < prices.size(); ++i) {
        if (job.suits[i][b] != 0) most += prices[i] * counts[i];
      }
      if (areas) most = std::min(most, bin.wood.areaMost());
      if (table && most > 0) {
        auto at = tables.find(bin.grain);
        if (at == tables.end()) {
          at = tables.emplace(bin.grain, WorthTable(job, counts, prices, bin.grain)).first;
        }
        most = std::min(most, at->second.most(bin) * (1 + 1e-12));
      }
      bins.push_back({search ? bin.search : bin.cost, bin.count, most});
    }
    return roundedUp(priceBound(total, bins) * (1 - 1e-9), bins);
  }
};

}  // namespace

CostBound costBound(const Job& job, const std::vector<int>& counts,
                    const std::vector<std::vector<double>>& prices, bool search) {
  const Bounder bounder{job, counts, search};
  std::vector<double> areas;
  for (const Item& item : job.items) areas.push_back(item.area);
  CostBound best{bounder.bound(areas, false, true), "area"};
  if (job.free) return best;  // parts that lie anyhow are not bounded by through cuts
  const auto take = [&](double value, const char* by) {
    if (value > best.value * (1 + 1e-9)) best = {value, by};
  };
  take(bounder.bound(areas, true, true), "through-cut patterns by area");
  for (const std::vector<double>& set : prices) {
    take(bounder.bound(set, true, false), "column generation");
  }
  return best;
}

}  // namespace dryfit::joinery::cutting

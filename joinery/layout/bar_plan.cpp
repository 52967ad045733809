#include "joinery/layout/bar_plan.h"

#include <algorithm>

#include "joinery/layout/cutting_stock.h"

namespace dryfit::joinery::cutting {
namespace {

constexpr int kNodesMost = 300;
constexpr int kPatternsMost = 6'000;

const std::vector<Pose>& posesOn(const Item& item, const Bin& bin) {
  return item.parts[0][static_cast<std::size_t>(bin.grain)];
}

bool onePartWide(const Job& job) {
  if (job.free || job.items.empty() || job.bins.empty()) return false;
  for (std::size_t b = 0; b < job.bins.size(); ++b) {
    const Bin& bin = job.bins[b];
    if (!bin.wood.plain() || bin.grain != job.bins[0].grain) return false;
    std::vector<Size> widths;
    for (std::size_t i = 0; i < job.items.size(); ++i) {
      const Item& item = job.items[i];
      if (item.parts.size() != 1 || job.suits[i][b] == 0) return false;
      const std::vector<Pose>& poses = posesOn(item, bin);
      if (poses.size() != 1 || poses[0].members.size() != 1) return false;
      widths.push_back(poses[0].width);
      if (item.demand() > 1) widths.push_back(poses[0].width);
    }
    std::sort(widths.begin(), widths.end());
    if (widths.size() > 1 && widths[0] + job.kerf() + widths[1] <= bin.wood.usable().width) {
      return false;
    }
  }
  return true;
}

}  // namespace

std::optional<BarPlan> planOfBars(const Job& job, const std::vector<double>& missingWeights,
                                  const std::function<bool()>& goOn) {
  if (!onePartWide(job)) return std::nullopt;
  std::vector<BarKind> kinds;
  std::vector<BarItem> items;
  for (const Bin& bin : job.bins) {
    kinds.push_back({bin.wood.usable().length + job.kerf(), bin.search, bin.count});
  }
  for (const Item& item : job.items) {
    items.push_back({posesOn(item, job.bins[0])[0].length + job.kerf(), item.demand()});
  }
  BarSearch search;
  search.nodesMost = kNodesMost;
  search.patternsMost = kPatternsMost;
  search.goOn = goOn;
  const BarAnswer answer = cutBars(kinds, items, search);
  std::vector<SharedPattern> patterns;
  std::int64_t work = 0;
  for (const BarPattern& bar : answer.bars) {
    std::vector<int> order;
    for (std::size_t i = 0; i < items.size(); ++i) {
      order.insert(order.end(), static_cast<std::size_t>(bar.counts[i]), static_cast<int>(i));
    }
    patterns.push_back(std::make_shared<const Pattern>(fillByCuts(
        job, bar.kind, order, {FillRules::Split::acrossFirst, FillRules::Choice::nearEnd}, work)));
  }
  BarPlan plan{planOf(job, std::move(patterns), missingWeights), 0};
  if (plan.plan.complete()) plan.bound = answer.bound;
  return plan;
}

}  // namespace dryfit::joinery::cutting

#include "joinery/layout/plan_builder.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace dryfit::joinery::cutting {
namespace {

constexpr int kKeys = 5;
constexpr int kBinsTried = 8;

FillRules rulesOf(int i) {
  return {static_cast<FillRules::Split>(i % 4), static_cast<FillRules::Choice>(i / 4 % 3)};
}

}  // namespace

PlanBuilder::PlanBuilder(const Job& job, const std::vector<double>& missingWeights,
                         std::uint64_t seed)
    : job_(job), missingWeights_(missingWeights), random_(seed) {}

PlanBuilder::Rest PlanBuilder::everything() const {
  Rest rest;
  for (const Item& item : job_.items) rest.left.push_back(item.demand());
  for (const Bin& bin : job_.bins) rest.bins.push_back(bin.count);
  return rest;
}

Plan PlanBuilder::first() {
  std::vector<double> values;
  for (const Item& item : job_.items) values.push_back(item.area);
  return planOf(job_, build(everything(), values, false), missingWeights_);
}

Plan PlanBuilder::improve(const Plan& start, std::vector<double> values, std::int64_t workMost) {
  Plan best = start, current = start;
  const std::vector<double> given = values;
  const std::int64_t until = work_ + workMost;
  for (int step = 0; work_ < until; ++step) {
    Plan next;
    if (step % 8 < 2 || current.patterns.empty()) {
      std::vector<SharedPattern> patterns = build(everything(), values, true);
      correct(patterns, values);
      next = planOf(job_, std::move(patterns), missingWeights_);
      if (step % 64 == 63) values = given;
    } else {
      next = rebuildSome(current, values);
    }
    if (!better(current, next)) current = next;
    if (better(next, best)) best = next;
    if (job_.bins.empty()) break;
    work_ += 50;
  }
  return best;
}

/// Items that lay in badly used stock are worth more from now on.
void PlanBuilder::correct(const std::vector<SharedPattern>& patterns,
                          std::vector<double>& values) const {
  for (const SharedPattern& pattern : patterns) {
    const double used =
        pattern->area / job_.bins[static_cast<std::size_t>(pattern->bin)].wood.areaMost();
    for (const auto& [item, copies] : pattern->counts) {
      double& value = values[static_cast<std::size_t>(item)];
      value =
          0.8 * value + 0.2 * job_.items[static_cast<std::size_t>(item)].area / std::max(used, 0.2);
    }
  }
}

std::vector<SharedPattern> PlanBuilder::build(Rest rest, const std::vector<double>& values,
                                              bool chance) {
  std::vector<SharedPattern> patterns;
  while (SharedPattern pattern = nextPattern(rest, values, chance)) {
    for (const auto& [item, copies] : pattern->counts) {
      rest.left[static_cast<std::size_t>(item)] -= copies;
    }
    --rest.bins[static_cast<std::size_t>(pattern->bin)];
    met_.push_back(pattern);
    patterns.push_back(std::move(pattern));
  }
  return patterns;
}

double PlanBuilder::worth(const Pattern& pattern, const std::vector<double>& values) const {
  double worth = 0;
  for (const auto& [item, copies] : pattern.counts) {
    worth += copies * values[static_cast<std::size_t>(item)];
  }
  return worth;
}

SharedPattern PlanBuilder::nextPattern(const Rest& rest, const std::vector<double>& values,
                                       bool chance) {
  int copiesLeft = 0;
  for (std::size_t i = 0; i < values.size(); ++i) copiesLeft += rest.left[i];
  if (copiesLeft == 0) return nullptr;
  std::vector<int> bins;
  for (std::size_t b = 0; b < rest.bins.size(); ++b) {
    if (rest.bins[b] > 0) bins.push_back(static_cast<int>(b));
  }
  if (chance && static_cast<int>(bins.size()) > kBinsTried) {
    for (int i = 0; i < kBinsTried; ++i) {
      const int other = i + choice(static_cast<int>(bins.size()) - i);
      std::swap(bins[static_cast<std::size_t>(i)], bins[static_cast<std::size_t>(other)]);
    }
    bins.resize(kBinsTried);
    std::sort(bins.begin(), bins.end());
  }
  SharedPattern best;
  bool finishes = false;
  double bestScore = 0;
  for (const int b : bins) {
    SharedPattern pattern = bestFill(b, rest, values, chance);
    if (!pattern) continue;
    int copies = 0;
    for (const auto& count : pattern->counts) copies += count.second;
    const double cost = std::max(job_.bins[static_cast<std::size_t>(b)].search, 1e-9);
    // Once one piece takes all that is left, the cheapest such piece is the one.
    const bool last = copies == copiesLeft;
    const double score = last ? 1 / cost : worth(*pattern, values) / cost;
    if (best && (finishes != last ? finishes : score <= bestScore)) continue;
    best = std::move(pattern);
    finishes = last;
    bestScore = score;
  }
  return best;
}

SharedPattern PlanBuilder::bestFill(int bin, const Rest& rest, const std::vector<double>& values,
                                    bool chance) {
  SharedPattern best;
  double bestWorth = 0;
  const int tries = chance ? 3 : 6;
  for (int t = 0; t < tries; ++t) {
    const int key = chance ? choice(kKeys) : t % 3;
    const FillRules rules = rulesOf(chance ? choice(12) : t);
    const double noise = chance ? 0.4 * chanceBelow(1) : 0;
    Pattern pattern = fill(job_, bin, order(rest, values, key, noise), rules, work_);
    const double value = worth(pattern, values);
    if (value <= 0) continue;
    const bool fewerCuts =
        best && value >= bestWorth * (1 - 1e-12) && pattern.cuts() < best->cuts();
    if (best && value <= bestWorth * (1 + 1e-12) && !fewerCuts) continue;
    bestWorth = value;
    best = std::make_shared<const Pattern>(std::move(pattern));
  }
  return best;
}

std::vector<int> PlanBuilder::order(const Rest& rest, const std::vector<double>& values, int key,
                                    double noise) {
  std::vector<std::pair<double, int>> keyed;
  std::size_t copies = 0;
  for (std::size_t i = 0; i < job_.items.size(); ++i) {
    if (rest.left[i] == 0) continue;
    const Item& item = job_.items[i];
    const auto& poses = item.parts[0];
    double length = 1, width = 1;
    for (const auto& byGrain : poses) {
      if (byGrain.empty()) continue;
      length = static_cast<double>(byGrain[0].length);
      width = static_cast<double>(byGrain[0].width);
      break;
    }
    double size = 0;
    switch (key) {
      case 0:
        size = item.area;
        break;
      case 1:
        size = std::max(length, width);
        break;
      case 2:
        size = width;
        break;
      case 3:
        size = length;
        break;
      default:
        size = values[i] / std::sqrt(item.area);
        break;
    }
    if (noise > 0) size *= std::exp(noise * (chanceBelow(2) - 1));
    // Where a match goes decides more than where a single part does.
    if (item.parts.size() > 1) size *= 4;
    keyed.emplace_back(-size, static_cast<int>(i));
    copies += static_cast<std::size_t>(rest.left[i]);
  }
  std::sort(keyed.begin(), keyed.end());
  std::vector<int> order;
  order.reserve(copies);
  for (const auto& [size, item] : keyed) {
    order.insert(order.end(), static_cast<std::size_t>(rest.left[static_cast<std::size_t>(item)]),
                 item);
  }
  return order;
}

/// Takes a few pieces of stock back and lays their items out again with what else is free.
Plan PlanBuilder::rebuildSome(const Plan& plan, const std::vector<double>& values) {
  Rest rest = everything();
  rest.left = plan.missing;
  std::vector<SharedPattern> kept = plan.patterns;
  const int taken = 1 + choice(std::min(3, static_cast<int>(kept.size())));
  for (int n = 0; n < taken; ++n) {
    // Half of the time the one used worst, else any.
    std::size_t out = 0;
    if (n == 0 && choice(2) == 0) {
      for (std::size_t p = 1; p < kept.size(); ++p) {
        const auto use = [&](const SharedPattern& pattern) {
          return pattern->area / job_.bins[static_cast<std::size_t>(pattern->bin)].wood.areaMost();
        };
        if (use(kept[p]) < use(kept[out])) out = p;
      }
    } else {
      out = static_cast<std::size_t>(choice(static_cast<int>(kept.size())));
    }
    for (const auto& [item, copies] : kept[out]->counts) {
      rest.left[static_cast<std::size_t>(item)] += copies;
    }
    kept.erase(kept.begin() + static_cast<std::ptrdiff_t>(out));
  }
  for (const SharedPattern& pattern : kept) --rest.bins[static_cast<std::size_t>(pattern->bin)];
  for (SharedPattern& pattern : build(std::move(rest), values, true)) {
    kept.push_back(std::move(pattern));
  }
  return planOf(job_, std::move(kept), missingWeights_);
}

}  // namespace dryfit::joinery::cutting

#include "joinery/layout/plan_search.h"

#include "joinery/base/progress.h"

#include <algorithm>
#include <array>
#include <map>

#include "joinery/base/parallel.h"
#include "joinery/layout/bar_plan.h"
#include "joinery/layout/board_search.h"
#include "joinery/layout/layout_bound.h"
#include "joinery/layout/limited_knapsack.h"
#include "joinery/layout/master_problem.h"
#include "joinery/layout/plan_builder.h"

namespace dryfit::joinery::cutting {
namespace {

constexpr int kRounds = 4;
constexpr int kTasks = 8;                      // a round; whatever the number of cores
constexpr std::int64_t kWorkOfTask = 400'000;  // at 100 percent of effort
constexpr int kChoiceNodes = 60;
constexpr std::size_t kColumnsMost = 600;
constexpr int kPolishTries = 60;
constexpr int kExactItemsMost = 12, kExactCopiesMost = 30;
constexpr int kPackRounds = 2;
constexpr std::int64_t kWorkOfPacking = 150'000;
constexpr double kShareOfBoards = 0.5;  // of the time, for all that progress can tell

class PlanSearch {
 public:
  PlanSearch(const Job& job, const std::function<bool(double)>& progress)
      : job_(job), progress_(progress), weights_(missingWeights(job)) {
    for (const Item& item : job.items) demands_.push_back(item.demand());
  }

  FoundPlan run() {
    PlanBuilder builder(job_, weights_, 0);
    found_.plan = builder.first();
    keep(builder.met());
    std::vector<double> values;
    for (const Item& item : job_.items) values.push_back(item.area);
    if (auto bars = planOfBars(job_, weights_, [this] { return goOn(0); })) {
      found_.bars = bars->bound;
      keep(bars->plan.patterns);
      if (better(bars->plan, found_.plan)) found_.plan = std::move(bars->plan);
    }
    bound_ = std::max(found_.bars, costBound(job_, demands_, {}, true).value);
    const int rounds = job_.bins.empty() ? 0 : std::max(1, kRounds * job_.settings.effort / 100);
    const double share = job_.sheets ? 1 : 1 - kShareOfBoards;
    // Even when nothing can cost less, one round may find fewer cuts.
    for (int round = 0; round < rounds && (round == 0 || !done()) && found_.finished; ++round) {
      buildAndRebuild(round, rounds, values, share);
      share_ = share * (round + 1) / rounds;
      if (found_.finished && !done()) choose(values);
    }
    if (found_.finished && !job_.sheets) searchBoards();
    if (found_.finished) polish();
    return std::move(found_);
  }

  /// Any plan that leaves nothing out, nothing where none was found.
  std::optional<Plan> pack() {
    work_ = kWorkOfPacking;
    std::vector<double> values;
    for (const Item& item : job_.items) values.push_back(item.area);
    found_.plan = PlanBuilder(job_, weights_, 0).first();
    for (int round = 0; round < kPackRounds && !found_.plan.complete(); ++round) {
      buildAndRebuild(round, kPackRounds, values, 1);
      if (!found_.finished) return std::nullopt;
      if (!found_.plan.complete()) choose(values);
    }
    return found_.plan.complete() ? std::optional(found_.plan) : std::nullopt;
  }

 private:
  /// Cheaper sets of boards, each tried by itself.
  void searchBoards() {
    if (!found_.plan.complete() || done()) return;
    const auto packBoards = [this](const std::vector<int>& boards) -> std::optional<Plan> {
      const PartOfStock part = withBoards(job_, boards);
      std::optional<Plan> plan =
          PlanSearch(part.job, [this](double) { return progress_(kShareOfBoards); }).pack();
      if (!plan) return std::nullopt;
      for (SharedPattern& pattern : plan->patterns) {
        Pattern renamed = *pattern;
        renamed.bin = part.kinds[static_cast<std::size_t>(pattern->bin)];
        pattern = std::make_shared<const Pattern>(std::move(renamed));
      }
      return planOf(job_, std::move(plan->patterns), weights_);
    };
    if (auto plan =
            cheaperBoards(job_, found_.plan, packBoards, [this] { return goOn(kShareOfBoards); })) {
      found_.plan = std::move(*plan);
    }
  }

  /// For what stops in the middle.
  bool goOn(double share) {
    if (found_.finished && !progress_(share)) found_.finished = false;
    return found_.finished;
  }

  [[nodiscard]] bool done() const {
    return found_.plan.complete() && found_.plan.cost <= bound_ * (1 + 1e-9);
  }

  void keep(const std::vector<SharedPattern>& patterns) {
    for (const SharedPattern& pattern : patterns) {
      std::vector<int> key{pattern->bin};
      for (const auto& [item, copies] : pattern->counts) {
        key.push_back(item);
        key.push_back(copies);
      }
      SharedPattern& kept = pool_[key];
      if (!kept || pattern->cuts() < kept->cuts()) kept = pattern;
    }
  }

  void buildAndRebuild(int round, int rounds, const std::vector<double>& values, double share) {
    std::array<Plan, kTasks> plans;
    std::array<std::vector<SharedPattern>, kTasks> met;
    std::array<bool, kTasks> finished{};
    const std::int64_t work = work_ * std::clamp(job_.settings.effort, 1, 100) / 100;
    const auto task = [&](std::size_t i) -> Result<void> {
      PlanBuilder builder(job_, weights_, static_cast<std::uint64_t>(round) * 1000 + i + 1);
      plans[i] = builder.improve(found_.plan, values, work);
      met[i] = std::move(builder.met());
      finished[i] = true;
      return {};
    };
    const Progress ask = [&](int doneTasks, int all) {
      return progress_(share * (round + static_cast<double>(doneTasks) / std::max(all, 1)) /
                       rounds);
    };
    const Result<void> all = inParallel(kTasks, task, ask);
    if (!all) found_.finished = false;
    for (std::size_t i = 0; i < kTasks; ++i) {
      if (!finished[i]) continue;
      keep(met[i]);
      if (better(plans[i], found_.plan)) found_.plan = std::move(plans[i]);
    }
  }

  /// The best choice among all patterns met, and what items are worth by it.
  void choose(std::vector<double>& values) {
    std::vector<int> counts;
    for (const Bin& bin : job_.bins) counts.push_back(bin.count);
    const auto ask = [this] { return goOn(share_); };
    MasterProblem relaxed(demands_, counts, weights_);
    relaxed.askWhether(ask);
    for (const auto& [key, pattern] : pool_) relaxed.add(columnOf(*pattern));
    auto prices = relaxed.relaxed();
    if (!prices) return;
    if (addExactPatterns(*prices)) {
      MasterProblem again(demands_, counts, weights_);
      again.askWhether(ask);
      for (const auto& [key, pattern] : pool_) again.add(columnOf(*pattern));
      if (auto better = again.relaxed()) prices = better;
    }
    found_.prices.push_back(prices->item);
    bound_ = std::max(bound_, costBound(job_, demands_, {prices->item}, true).value);
    for (std::size_t i = 0; i < values.size(); ++i) {
      // Values are areas; prices have another unit and may be 0.
      values[i] = 0.5 * values[i] + 0.5 * scaled(prices->item, i);
    }
    if (done()) return;
    chooseWhole(*prices, counts);
  }

  [[nodiscard]] double scaled(const std::vector<double>& prices, std::size_t i) const {
    double worth = 0, area = 0;
    for (std::size_t k = 0; k < prices.size(); ++k) {
      worth += prices[k] * demands_[k];
      area += job_.items[k].area * demands_[k];
    }
    return worth > 0 ? prices[i] * area / worth + 0.05 * job_.items[i].area : job_.items[i].area;
  }

  [[nodiscard]] MasterColumn columnOf(const Pattern& pattern) const {
    return {pattern.bin, job_.bins[static_cast<std::size_t>(pattern.bin)].search, pattern.counts};
  }

  /// Only patterns that a better plan can use: those that at these prices cost less too much.
  void chooseWhole(const MasterPrices& prices, const std::vector<int>& counts) {
    std::vector<std::pair<double, SharedPattern>> useful;
    for (const auto& [key, pattern] : pool_) {
      double lack = job_.bins[static_cast<std::size_t>(pattern->bin)].search +
                    prices.bin[static_cast<std::size_t>(pattern->bin)];
      for (const auto& [item, copies] : pattern->counts) {
        lack -= copies * prices.item[static_cast<std::size_t>(item)];
      }
      if (lack <= found_.plan.weight - prices.value + 1e-9) useful.emplace_back(lack, pattern);
    }
    std::stable_sort(useful.begin(), useful.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    if (useful.size() > kColumnsMost) useful.resize(kColumnsMost);
    MasterProblem master(demands_, counts, weights_);
    master.askWhether([this] { return goOn(share_); });
    for (const auto& column : useful) master.add(columnOf(*column.second));
    const auto whole = master.whole(found_.plan.weight * (1 - 1e-7) - 1e-9, kChoiceNodes);
    if (!whole) return;
    std::vector<SharedPattern> patterns;
    for (std::size_t c = 0; c < useful.size(); ++c) {
      for (int n = 0; n < whole->copies[c]; ++n) patterns.push_back(useful[c].second);
    }
    const Plan plan = planOf(job_, withoutSurplus(patterns), weights_);
    if (better(plan, found_.plan)) found_.plan = plan;
  }

  /// Lays out again, without what is cut too often.
  std::vector<SharedPattern> withoutSurplus(const std::vector<SharedPattern>& patterns) {
    std::vector<int> left = demands_;
    std::vector<SharedPattern> kept;
    for (const SharedPattern& pattern : patterns) {
      std::vector<int> allowed(left.size(), 0);
      bool surplus = false, any = false;
      for (const auto& [item, copies] : pattern->counts) {
        const auto i = static_cast<std::size_t>(item);
        allowed[i] = std::min(copies, left[i]);
        left[i] -= allowed[i];
        surplus = surplus || allowed[i] < copies;
        any = any || allowed[i] > 0;
      }
      if (!any) continue;
      kept.push_back(surplus ? leavingOut(*pattern, allowed) : pattern);
    }
    return kept;
  }

  /// A pattern with fewer copies; their places are left over.
  [[nodiscard]] SharedPattern leavingOut(const Pattern& pattern,
                                         const std::vector<int>& allowed) const {
    Pattern fewer = pattern;
    fewer.members.clear();
    fewer.counts.clear();
    std::vector<int> becomes(pattern.members.size(), -1);
    for (std::size_t m = 0; m < pattern.members.size(); ++m) {
      const PlacedMember& member = pattern.members[m];
      if (member.copy >= allowed[static_cast<std::size_t>(member.item)]) continue;
      becomes[m] = static_cast<int>(fewer.members.size());
      fewer.members.push_back(member);
    }
    for (std::size_t n = 0; n < pattern.tree.nodes().size(); ++n) {
      const int use = pattern.tree.nodes()[n].use;
      if (use >= 0) fewer.tree.use(static_cast<int>(n), becomes[static_cast<std::size_t>(use)]);
    }
    fewer.area = 0;
    for (std::size_t i = 0; i < allowed.size(); ++i) {
      if (allowed[i] == 0) continue;
      fewer.counts.emplace_back(static_cast<int>(i), allowed[i]);
      fewer.area += allowed[i] * job_.items[i].area;
    }
    return std::make_shared<const Pattern>(std::move(fewer));
  }

  /// On small jobs: the patterns worth most at these prices, exactly. True when any are new.
  bool addExactPatterns(const MasterPrices& prices) {
    int copies = 0;
    for (const int demand : demands_) copies += demand;
    if (job_.free || job_.items.size() > kExactItemsMost || copies > kExactCopiesMost) return false;
    const std::size_t before = pool_.size();
    for (std::size_t b = 0; b < job_.bins.size(); ++b) {
      const Bin& bin = job_.bins[b];
      if (!bin.wood.plain()) continue;
      for (const bool byArea : {false, true}) {
        if (const auto pattern = exactPattern(static_cast<int>(b), prices, byArea)) {
          keep({std::make_shared<const Pattern>(*pattern)});
        }
      }
    }
    return pool_.size() > before;
  }

  std::optional<Pattern> exactPattern(int b, const MasterPrices& prices, bool byArea) const {
    const Bin& bin = job_.bins[static_cast<std::size_t>(b)];
    const auto grain = static_cast<std::size_t>(bin.grain);
    std::vector<LimitedItem> items;
    for (std::size_t i = 0; i < job_.items.size(); ++i) {
      const Item& item = job_.items[i];
      LimitedItem limited;
      limited.copies = demands_[i];
      const bool suits = item.parts.size() == 1 && job_.suits[i][static_cast<std::size_t>(b)] != 0;
      limited.value = !suits ? 0 : byArea ? item.area : prices.item[i];
      for (const Pose& pose : item.parts[0][grain]) {
        if (job_.turnsMost() > 0 && pose.members.size() > 1) limited.value = 0;
        limited.poses.emplace_back(pose.length + job_.kerf(), pose.width + job_.kerf());
      }
      items.push_back(std::move(limited));
    }
    LimitedSearch search;
    search.turnsMost = job_.turnsMost();
    search.piecesMost = 3'000;
    search.boundPointsMost = 120;
    const LimitedPattern best = limitedKnapsack(items, bin.wood.usable().length + job_.kerf(),
                                                bin.wood.usable().width + job_.kerf(), search);
    if (best.rects.empty()) return std::nullopt;
    std::vector<LaidRect> rects;
    std::vector<int> copies(items.size(), 0);
    for (const LimitedRect& rect : best.rects) {
      const auto i = static_cast<std::size_t>(rect.item);
      const Pose& pose = job_.items[i].parts[0][grain][static_cast<std::size_t>(rect.pose)];
      rects.push_back({rect.item,
                       copies[i]++,
                       &pose,
                       {bin.wood.usable().x + rect.area.x, bin.wood.usable().y + rect.area.y,
                        pose.length, pose.width}});
    }
    std::optional<Pattern> pattern = patternOf(job_, b, rects);
    const int limit = job_.turnsMost();
    if (pattern && limit > 0 && pattern->tree.turns() > limit) return std::nullopt;
    return pattern;
  }

  /// Lays each piece of stock out again with the same items: fewer cuts, then a larger offcut.
  void polish() {
    std::vector<SharedPattern>& patterns = found_.plan.patterns;
    const auto work = [&](std::size_t p) -> Result<void> {
      patterns[p] = polished(patterns[p], p);
      return {};
    };
    const Progress ask = [&](int, int) { return progress_(1); };
    if (!inParallel(patterns.size(), work, ask)) found_.finished = false;
    found_.plan = planOf(job_, std::move(patterns), weights_);
  }

  [[nodiscard]] SharedPattern polished(const SharedPattern& pattern, std::size_t number) const {
    Pattern best = *pattern;
    const auto offcut = [&](const Pattern& p) {
      const std::vector<Area> offcuts = offcutsOf(job_, p);
      return offcuts.empty() ? 0 : offcuts[0].area();
    };
    best.offcut = offcut(best);
    std::mt19937_64 random(number + 7);
    std::int64_t work = 0;
    std::vector<int> order;
    for (const auto& [item, copies] : pattern->counts) {
      order.insert(order.end(), static_cast<std::size_t>(copies), item);
    }
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
      return job_.items[static_cast<std::size_t>(a)].area >
             job_.items[static_cast<std::size_t>(b)].area;
    });
    const int tries = std::max(12, kPolishTries * job_.settings.effort / 100);
    for (int t = 0; t < tries; ++t) {
      if (t >= 12) {
        const std::size_t a = random() % order.size(), b = random() % order.size();
        std::swap(order[a], order[b]);
      }
      const FillRules rules{static_cast<FillRules::Split>(t % 4),
                            static_cast<FillRules::Choice>(t / 4 % 3)};
      Pattern next = fill(job_, pattern->bin, order, rules, work);
      if (next.counts != pattern->counts || next.cuts() > best.cuts()) continue;
      next.offcut = offcut(next);
      if (next.cuts() < best.cuts() || next.offcut > best.offcut) best = std::move(next);
    }
    return std::make_shared<const Pattern>(std::move(best));
  }

  const Job& job_;
  const std::function<bool(double)>& progress_;
  std::vector<double> weights_;
  std::vector<int> demands_;
  FoundPlan found_;
  double bound_ = 0;
  double share_ = 0;  ///< of the search that is done
  std::int64_t work_ = kWorkOfTask;
  std::map<std::vector<int>, SharedPattern> pool_;
};

}  // namespace

FoundPlan findPlan(const Job& job, const std::function<bool(double)>& progress) {
  return PlanSearch(job, progress).run();
}

}  // namespace dryfit::joinery::cutting

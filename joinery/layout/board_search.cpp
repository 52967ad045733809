#include "joinery/layout/board_search.h"

#include <algorithm>

namespace dryfit::joinery::cutting {
namespace {

constexpr double kBetter = 1 - 1e-7;  // what counts as costing less
constexpr int kRoundsMost = 80;       // choices of boards, at 100 percent of effort
constexpr int kTriesMost = 24;        // sets laid out in vain, at 100 percent of effort
constexpr int kTriesClosely = 12;     // of these, with no room to spare; then ever more
constexpr double kSpareStep = 0.01;
constexpr double kFree = 1e-6;  // of the best cost: boards that cost less come along

int scaled(int most, int effort, int least) {
  return std::max(least, most * std::clamp(effort, 1, 100) / 100);
}

std::vector<int> demandsOf(const Job& job) {
  std::vector<int> demands;
  for (const Item& item : job.items) demands.push_back(item.demand());
  return demands;
}

std::vector<double> weightsOf(const Job& job) {
  std::vector<double> weights;
  for (const Bin& bin : job.bins) weights.push_back(bin.search);
  return weights;
}

}  // namespace

BoardSets::BoardSets(const Job& job, const std::vector<int>& counts, std::function<bool()> goOn)
    : cover_(job, counts), goOn_(std::move(goOn)) {
  int copies = 0;
  for (const int count : counts) copies += count;
  for (const Bin& bin : job.bins) choice_.counts.push_back(std::min(bin.count, copies));
  std::vector<double> areas;
  for (const Item& item : job.items) areas.push_back(item.area);
  addRule(areas);
}

void BoardSets::addRule(const std::vector<double>& prices) {
  if (auto rule = cover_.ruleOf(prices)) choice_.rules.push_back(std::move(*rule));
}

std::optional<std::vector<int>> BoardSets::next(const std::vector<double>& costs, double below,
                                                int roundsMost) {
  choice_.costs = costs;
  for (int round = 0; round < roundsMost && goOn_(); ++round) {
    ChoiceSearch search;
    search.goOn = goOn_;
    const ChosenBoards chosen = chooseBoards(choice_, search);
    if (choice_.tried.empty() && choice_.aim <= 1) bound_ = std::max(bound_, chosen.bound);
    if (chosen.boards.empty() || chosen.bound >= below) return std::nullopt;
    auto rule = cover_.brokenBy(chosen.boards, goOn_);
    if (!rule) return goOn_() ? std::optional(chosen.boards) : std::nullopt;
    choice_.rules.push_back(std::move(*rule));
  }
  return std::nullopt;
}

std::optional<Plan> cheaperBoards(const Job& job, const Plan& best, const PackBoards& pack,
                                  const std::function<bool()>& goOn) {
  const int effort = job.settings.effort;
  const std::vector<double> weights = weightsOf(job);
  BoardSets sets(job, demandsOf(job), goOn);
  std::optional<Plan> found;
  double cost = best.cost;
  const int tries = scaled(kTriesMost, effort, 1);
  for (int n = 0; n < tries && goOn(); ++n) {
    if (n >= kTriesClosely) sets.spare(kSpareStep * (n - kTriesClosely + 1));
    auto boards = sets.next(weights, cost * kBetter, scaled(kRoundsMost, effort, 4));
    if (!boards) {
      if (n >= kTriesClosely || n + 1 >= tries) break;
      n = kTriesClosely - 1;
      continue;
    }
    for (std::size_t b = 0; b < weights.size(); ++b) {
      if (weights[b] <= kFree * cost) (*boards)[b] = job.bins[b].count;
    }
    if (std::optional<Plan> plan = pack(*boards); plan && plan->cost < cost * kBetter) {
      cost = plan->cost;
      found = std::move(plan);
      if (cost * kBetter <= sets.bound()) break;
    }
    sets.tried(std::move(*boards));
  }
  return found;
}

double boardBound(const Job& job, const std::vector<int>& counts,
                  const std::vector<std::vector<double>>& prices, double upTo,
                  const std::function<bool()>& goOn) {
  std::vector<double> costs;
  for (const Bin& bin : job.bins) costs.push_back(bin.cost);
  BoardSets sets(job, counts, goOn);
  for (const std::vector<double>& set : prices) sets.addRule(set);
  (void)sets.next(costs, upTo, scaled(kRoundsMost, job.settings.effort, 4));
  return std::min(upTo, sets.bound());
}

PartOfStock withBoards(const Job& job, const std::vector<int>& boards) {
  PartOfStock part{job, {}};
  part.job.bins.clear();
  for (auto& row : part.job.suits) row.clear();
  for (std::size_t b = 0; b < job.bins.size(); ++b) {
    if (boards[b] <= 0) continue;
    part.kinds.push_back(static_cast<int>(b));
    part.job.bins.push_back(job.bins[b]);
    part.job.bins.back().count = boards[b];
    for (std::size_t i = 0; i < job.items.size(); ++i) {
      part.job.suits[i].push_back(job.suits[i][b]);
    }
  }
  return part;
}

}  // namespace dryfit::joinery::cutting

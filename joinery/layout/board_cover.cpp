#include "joinery/layout/board_cover.h"

#include <CoinPackedVector.hpp>
#include <OsiClpSolverInterface.hpp>
#include <algorithm>

namespace dryfit::joinery::cutting {
namespace {

constexpr int kRoundsMost = 60;
constexpr double kLeastLack = 1e-5;     // of all area wanted; less is rounding
constexpr double kGoodEnough = 0.5;     // of the lack that there may be
constexpr double kLeastGain = 1e-7;
constexpr std::size_t kKeptMost = 120;  // patterns of one board and view
constexpr double kSafe = 1 + 1e-9;

}  // namespace

/// Sharing the items out among boards as a linear problem: least area left without a board.
struct BoardCover::Shares {
  OsiClpSolverInterface linear;
  int items, boards;

  Shares(int itemCount, int boardCount) : items(itemCount), boards(boardCount) {
    linear.messageHandler()->setLogLevel(0);
    linear.getModelPtr()->setLogLevel(0);
    linear.setHintParam(OsiDoReducePrint, true, OsiHintDo);
  }
  [[nodiscard]] int viewRow(int board, std::size_t view, int item) const {
    return items + (board * static_cast<int>(kViews) + static_cast<int>(view)) * (items + 1) + item;
  }
  /// A board is used once at most in each view.
  [[nodiscard]] int onceRow(int board, std::size_t view) const { return viewRow(board, view, items); }

  void addPattern(int board, std::size_t view, const Amounts& amounts) {
    CoinPackedVector rows;
    for (int i = 0; i < items; ++i) {
      const double amount = amounts[static_cast<std::size_t>(i)];
      if (amount > 0) rows.insert(viewRow(board, view, i), -amount);
    }
    rows.insert(onceRow(board, view), 1);
    linear.addCol(rows, 0, linear.getInfinity(), 0);
  }
};

BoardCover::BoardCover(const Job& job, const std::vector<int>& counts)
    : worth_(job, counts), patterns_(job.bins.size()) {
  double all = 0;
  for (std::size_t i = 0; i < counts.size(); ++i) all += job.items[i].area * counts[i];
  for (const Item& item : job.items) areas_.push_back(all > 0 ? item.area / all : 0);
}

LooseCutting BoardCover::look(std::size_t view, int bin, const std::vector<double>& prices) const {
  return view == 0 ? worth_.byCuts(bin, prices) : worth_.bySlices(bin, prices);
}

/// What the part of the prices is worth that no view is given: all of it may lie on the board.
double BoardCover::rest(int bin, const std::vector<double>& prices, const Split& split) const {
  double rest = 0;
  for (std::size_t i = 0; i < prices.size(); ++i) {
    if (!worth_.suits(static_cast<int>(i), bin)) continue;
    rest += std::max(0.0, prices[i] - split[0][i] - split[1][i]) * worth_.counts()[i];
  }
  return rest;
}

/// The most that each board can be worth, by the best of several ways to split the prices.
std::vector<double> BoardCover::mosts(const std::vector<double>& prices,
                                      const std::vector<Split>& splits) const {
  const std::vector<double> none(prices.size(), 0.0);
  std::vector<Split> all{{none, none}, {prices, none}, {none, prices}};
  all.insert(all.end(), splits.begin(), splits.end());
  std::vector<double> most(patterns_.size(), 1e300);
  for (const Split& split : all) {
    const std::vector<double> cuts = worth_.allByCuts(split[0]);
    const std::vector<double> slices = worth_.allBySlices(split[1]);
    for (std::size_t b = 0; b < most.size(); ++b) {
      most[b] = std::min(most[b], cuts[b] + slices[b] + rest(static_cast<int>(b), prices, split));
    }
  }
  return most;
}

std::optional<CoverRule> BoardCover::ruleOf(const std::vector<double>& prices) const {
  double total = 0;
  for (std::size_t i = 0; i < prices.size(); ++i) total += prices[i] * worth_.counts()[i];
  if (total <= 0) return std::nullopt;
  CoverRule rule{mosts(prices, {})};
  for (double& most : rule.most) most = std::min(1.0, most / total * kSafe);
  return rule;
}

std::optional<CoverRule> BoardCover::brokenBy(const std::vector<int>& boards,
                                              const std::function<bool()>& goOn) {
  std::vector<int> used;
  for (std::size_t b = 0; b < boards.size(); ++b) {
    if (boards[b] > 0) used.push_back(static_cast<int>(b));
  }
  const int items = worth_.items();
  Shares shares(items, static_cast<int>(used.size()));
  OsiClpSolverInterface& linear = shares.linear;
  const double infinity = linear.getInfinity();
  const CoinPackedVector none;
  for (const int count : worth_.counts()) linear.addRow(none, count, infinity);
  for (const int b : used) {
    for (std::size_t view = 0; view < kViews; ++view) {
      for (int i = 0; i < items; ++i) linear.addRow(none, -infinity, 0);
      linear.addRow(none, -infinity, boards[static_cast<std::size_t>(b)]);
    }
  }
  for (int i = 0; i < items; ++i) {
    CoinPackedVector left;
    left.insert(i, 1);
    linear.addCol(left, 0, infinity, areas_[static_cast<std::size_t>(i)]);
  }
  for (std::size_t n = 0; n < used.size(); ++n) {
    const int board = static_cast<int>(n);
    const double copies = boards[static_cast<std::size_t>(used[n])];
    for (int i = 0; i < items; ++i) {
      if (!worth_.suits(i, used[n]) || worth_.counts()[static_cast<std::size_t>(i)] == 0) continue;
      CoinPackedVector share;
      share.insert(i, 1);
      for (std::size_t view = 0; view < kViews; ++view) share.insert(shares.viewRow(board, view, i), 1);
      linear.addCol(share, 0, copies * worth_.counts()[static_cast<std::size_t>(i)], 0);
    }
    for (std::size_t view = 0; view < kViews; ++view) {
      for (const Amounts& amounts : patterns_[static_cast<std::size_t>(used[n])][view]) {
        shares.addPattern(board, view, amounts);
      }
    }
  }
  for (int round = 0; round < kRoundsMost && (!goOn || goOn()); ++round) {
    try {
      linear.resolve();
    } catch (const CoinError&) {
      return std::nullopt;
    }
    if (!linear.isProvenOptimal() || linear.getObjValue() < kLeastLack) return std::nullopt;
    const double* dual = linear.getRowPrice();
    std::vector<double> prices;
    double total = 0;
    for (int i = 0; i < items; ++i) {
      prices.push_back(std::max(0.0, dual[i]));
      total += prices.back() * worth_.counts()[static_cast<std::size_t>(i)];
    }
    double held = 0;
    bool gained = false;
    std::vector<Split> splits;
    std::vector<double> own(used.size(), 0.0);
    for (std::size_t n = 0; n < used.size(); ++n) {
      const int board = static_cast<int>(n);
      Split split;
      double most = 0;
      for (std::size_t view = 0; view < kViews; ++view) {
        for (int i = 0; i < items; ++i) {
          split[view].push_back(std::max(0.0, -dual[shares.viewRow(board, view, i)]));
        }
        LooseCutting cutting = look(view, used[n], split[view]);
        most += cutting.value;
        double worth = 0;
        for (std::size_t i = 0; i < prices.size(); ++i) worth += split[view][i] * cutting.amounts[i];
        if (worth <= -dual[shares.onceRow(board, view)] + kLeastGain) continue;
        gained = true;
        shares.addPattern(board, view, cutting.amounts);
        auto& kept = patterns_[static_cast<std::size_t>(used[n])][view];
        if (kept.size() >= kKeptMost) kept.erase(kept.begin());
        kept.push_back(std::move(cutting.amounts));
      }
      own[n] = most + rest(used[n], prices, split);
      held += own[n] * boards[static_cast<std::size_t>(used[n])];
      splits.push_back(std::move(split));
    }
    const double lack = total - held;
    const bool enough = lack > std::max(kLeastLack, kGoodEnough * linear.getObjValue());
    if (!enough && gained) continue;
    if (lack <= kLeastLack) return std::nullopt;
    CoverRule rule{mosts(prices, splits)};
    for (std::size_t n = 0; n < used.size(); ++n) {
      double& most = rule.most[static_cast<std::size_t>(used[n])];
      most = std::min(most, own[n]);
    }
    for (double& most : rule.most) most = std::min(1.0, most / total * kSafe);
    return rule;
  }
  return std::nullopt;
}

}  // namespace dryfit::joinery::cutting

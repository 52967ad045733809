#include "joinery/layout/board_cover.h"

#include <CoinPackedVector.hpp>
#include <OsiClpSolverInterface.hpp>
#include <algorithm>

#include "joinery/layout/quiet_solver.h"

namespace dryfit::joinery::cutting {
namespace {

constexpr int kRoundsMost = 60;
constexpr double kLeastLack = 1e-5;  // of all area wanted; less is rounding
constexpr double kGoodEnough = 0.5;  // of the lack that there may be
constexpr double kLeastGain = 1e-7;
constexpr std::size_t kKeptMost = 120;  // patterns of one board and view
constexpr double kSafe = 1 + 1e-9;

}  // namespace

/// Sharing the items out among boards as a linear problem: least area left without a board.
class BoardCover::Shares {
 public:
  /// `used`: kinds of boards, `copies` how many of each.
  Shares(const BoardWorth& worth, const std::vector<double>& areas, const std::vector<int>& used,
         const std::vector<int>& copies)
      : items_(worth.items()) {
    silence(linear_);
    const CoinPackedVector none;
    const double infinity = linear_.getInfinity();
    for (const int count : worth.counts()) linear_.addRow(none, count, infinity);
    for (std::size_t row = 0; row < used.size() * kViews; ++row) {
      for (int i = 0; i < items_; ++i) linear_.addRow(none, -infinity, 0);
      linear_.addRow(none, -infinity, copies[row / kViews]);
    }
    for (int i = 0; i < items_; ++i) {
      CoinPackedVector left;
      left.insert(i, 1);
      linear_.addCol(left, 0, infinity, areas[static_cast<std::size_t>(i)]);
    }
    for (std::size_t n = 0; n < used.size(); ++n) {
      for (int i = 0; i < items_; ++i) {
        const int count = worth.counts()[static_cast<std::size_t>(i)];
        if (!worth.suits(i, used[n]) || count == 0) continue;
        CoinPackedVector share;
        share.insert(i, 1);
        for (std::size_t view = 0; view < kViews; ++view) share.insert(viewRow(n, view, i), 1);
        linear_.addCol(share, 0, static_cast<double>(copies[n]) * count, 0);
      }
    }
  }

  void addPattern(std::size_t board, std::size_t view, const Amounts& amounts) {
    CoinPackedVector rows;
    for (int i = 0; i < items_; ++i) {
      const double amount = amounts[static_cast<std::size_t>(i)];
      if (amount > 0) rows.insert(viewRow(board, view, i), -amount);
    }
    rows.insert(viewRow(board, view, items_), 1);
    linear_.addCol(rows, 0, linear_.getInfinity(), 0);
  }

  /// False: the solver gave up.
  bool solve() {
    try {
      linear_.resolve();
    } catch (const CoinError&) {
      return false;
    }
    if (!linear_.isProvenOptimal()) return false;
    // New columns would take the answer away.
    lack_ = linear_.getObjValue();
    duals_.assign(linear_.getRowPrice(), linear_.getRowPrice() + linear_.getNumRows());
    return true;
  }
  [[nodiscard]] double lack() const { return lack_; }
  [[nodiscard]] std::vector<double> prices() const { return duals(0, 1); }
  [[nodiscard]] std::vector<double> prices(std::size_t board, std::size_t view) const {
    return duals(viewRow(board, view, 0), -1);
  }
  /// Of one more copy of the board in this view.
  [[nodiscard]] double boardPrice(std::size_t board, std::size_t view) const {
    return -duals_[static_cast<std::size_t>(viewRow(board, view, items_))];
  }

 private:
  /// Behind the rows of all items comes the one that uses the board only once.
  [[nodiscard]] int viewRow(std::size_t board, std::size_t view, int item) const {
    return items_ + static_cast<int>(board * kViews + view) * (items_ + 1) + item;
  }
  [[nodiscard]] std::vector<double> duals(int from, double sign) const {
    const auto first = static_cast<std::size_t>(from), count = static_cast<std::size_t>(items_);
    std::vector<double> prices;
    prices.reserve(count);
    for (std::size_t i = first; i < first + count; ++i) {
      prices.push_back(std::max(0.0, sign * duals_[i]));
    }
    return prices;
  }

  OsiClpSolverInterface linear_;
  int items_;
  double lack_ = 0;
  std::vector<double> duals_;
};

BoardCover::BoardCover(const Job& job, const std::vector<int>& counts)
    : worth_(job, counts), patterns_(job.bins.size()) {
  double all = 0;
  for (std::size_t i = 0; i < counts.size(); ++i) all += job.items[i].area * counts[i];
  for (const Item& item : job.items) areas_.push_back(all > 0 ? item.area / all : 0);
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

/// The best pattern of a board in each view at the prices there; new ones go into the problem.
BoardCover::Look BoardCover::lookAt(int bin, std::size_t board, Shares& shares) {
  Look look;
  for (std::size_t view = 0; view < kViews; ++view) {
    look.split[view] = shares.prices(board, view);
    const std::vector<double>& prices = look.split[view];
    LooseCutting cutting = view == 0 ? worth_.byCuts(bin, prices) : worth_.bySlices(bin, prices);
    look.most += cutting.value;
    double worth = 0;
    for (std::size_t i = 0; i < prices.size(); ++i) worth += prices[i] * cutting.amounts[i];
    if (worth <= shares.boardPrice(board, view) + kLeastGain) continue;
    look.gained = true;
    shares.addPattern(board, view, cutting.amounts);
    auto& kept = patterns_[static_cast<std::size_t>(bin)][view];
    if (kept.size() >= kKeptMost) kept.erase(kept.begin());
    kept.push_back(std::move(cutting.amounts));
  }
  return look;
}

std::optional<CoverRule> BoardCover::brokenBy(const std::vector<int>& boards,
                                              const std::function<bool()>& goOn) {
  std::vector<int> used, copies;
  for (std::size_t b = 0; b < boards.size(); ++b) {
    if (boards[b] <= 0) continue;
    used.push_back(static_cast<int>(b));
    copies.push_back(boards[b]);
  }
  Shares shares(worth_, areas_, used, copies);
  for (std::size_t n = 0; n < used.size(); ++n) {
    for (std::size_t view = 0; view < kViews; ++view) {
      for (const Amounts& amounts : patterns_[static_cast<std::size_t>(used[n])][view]) {
        shares.addPattern(n, view, amounts);
      }
    }
  }
  for (int round = 0; round < kRoundsMost && (!goOn || goOn()); ++round) {
    if (!shares.solve() || shares.lack() < kLeastLack) return std::nullopt;
    const std::vector<double> prices = shares.prices();
    double lack = 0;  // that is sure at these prices
    for (std::size_t i = 0; i < prices.size(); ++i) lack += prices[i] * worth_.counts()[i];
    const double atMost = shares.lack(), total = lack;
    bool gained = false;
    std::vector<Split> splits;
    std::vector<double> own;
    for (std::size_t n = 0; n < used.size(); ++n) {
      Look look = lookAt(used[n], n, shares);
      own.push_back(look.most + rest(used[n], prices, look.split));
      lack -= own[n] * copies[n];
      gained = gained || look.gained;
      splits.push_back(std::move(look.split));
    }
    if (lack <= std::max(kLeastLack, kGoodEnough * atMost) && gained) continue;
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

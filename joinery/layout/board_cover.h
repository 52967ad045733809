#pragma once

#include <array>
#include <functional>
#include <optional>
#include <vector>

#include "joinery/layout/board_worth.h"

namespace dryfit::joinery::cutting {

/// Any boards that all items can be cut from satisfy it: the sum of `most` over them, each as often
/// as it is used, is 1 or more.
struct CoverRule {
  std::vector<double> most;  ///< of each kind of board
};

/// Tells which boards surely cannot hold what is wanted. A set of boards is tried by sharing the
/// items out among them, fractions allowed, each board's share within both views of BoardWorth and
/// not above what is wanted; where that fails, its prices give a rule that the set breaks. Patterns
/// are generated as they are needed and kept for the next set.
class BoardCover {
 public:
  BoardCover(const Job& job, const std::vector<int>& counts);

  /// A rule that these boards (how many of each kind) break; nothing when they may do. `goOn`
  /// returning false ends it early, with nothing.
  [[nodiscard]] std::optional<CoverRule> brokenBy(const std::vector<int>& boards,
                                                  const std::function<bool()>& goOn);
  /// The rule that these prices give: no board holds more than it can be worth.
  [[nodiscard]] std::optional<CoverRule> ruleOf(const std::vector<double>& prices) const;

  [[nodiscard]] const BoardWorth& worth() const { return worth_; }

 private:
  class Shares;
  static constexpr std::size_t kViews = 2;
  using Amounts = std::vector<double>;
  using Split = std::array<std::vector<double>, kViews>;  ///< of prices among the views
  struct Look {
    Split split;
    double most = 0;      ///< that the board is worth at the split prices
    bool gained = false;  ///< a new pattern was found
  };
  Look lookAt(int bin, std::size_t board, Shares& shares);
  [[nodiscard]] double rest(int bin, const std::vector<double>& prices, const Split& split) const;
  [[nodiscard]] std::vector<double> mosts(const std::vector<double>& prices,
                                          const std::vector<Split>& splits) const;

  BoardWorth worth_;
  std::vector<double> areas_;  ///< of each item, as a share of all that is wanted
  std::vector<std::array<std::vector<Amounts>, kViews>> patterns_;  ///< met so far, by board
};

}  // namespace dryfit::joinery::cutting

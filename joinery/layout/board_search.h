#pragma once

#include <functional>
#include <optional>
#include <utility>
#include <vector>

#include "joinery/layout/board_choice.h"
#include "joinery/layout/layout_plan.h"

namespace dryfit::joinery::cutting {

/// The cheapest boards that a job may be cut from, one set after another: an integer program
/// chooses a set, BoardCover refutes it by a rule that the next choice keeps, or cannot.
/// (Decomposition of J. F. Benders, Numerische Mathematik 4 (1962) 238-252.)
class BoardSets {
 public:
  /// `goOn` returning false ends everything early; what was found by then holds.
  BoardSets(const Job& job, const std::vector<int>& counts, std::function<bool()> goOn);

  /// The next set that costs less than `below` and is not refuted, if one is found within
  /// `roundsMost` choices.
  [[nodiscard]] std::optional<std::vector<int>> next(const std::vector<double>& costs, double below,
                                                     int roundsMost);
  /// No set costs less than this, whatever was tried in vain.
  [[nodiscard]] double bound() const { return bound_; }
  /// This set was tried in vain: neither it nor a part of it comes again.
  void tried(std::vector<int> boards) { choice_.tried.push_back(std::move(boards)); }
  /// From now on sets are to have so much room to spare.
  void spare(double share) { choice_.aim = 1 + share; }
  /// What these prices say is kept from the start.
  void addRule(const std::vector<double>& prices);

 private:
  BoardCover cover_;
  BoardChoice choice_;
  std::function<bool()> goOn_;
  double bound_ = 0;
};

/// Lays a job out on the boards given (how many of each kind): all of it or nothing.
using PackBoards = std::function<std::optional<Plan>(const std::vector<int>& boards)>;

/// A plan that costs less than `best`, if the search meets one: sets of boards by rising cost, each
/// tried with `pack`.
[[nodiscard]] std::optional<Plan> cheaperBoards(const Job& job, const Plan& best,
                                                const PackBoards& pack,
                                                const std::function<bool()>& goOn);

/// A lower bound of the reported cost of boards for so many of each item; no more than `upTo`,
/// beyond which nobody asks.
[[nodiscard]] double boardBound(const Job& job, const std::vector<int>& counts,
                                const std::vector<std::vector<double>>& prices, double upTo,
                                const std::function<bool()>& goOn);

/// The job with these boards only; `kinds` tells which of the whole job's each is.
struct PartOfStock {
  Job job;
  std::vector<int> kinds;
};
[[nodiscard]] PartOfStock withBoards(const Job& job, const std::vector<int>& boards);

}  // namespace dryfit::joinery::cutting

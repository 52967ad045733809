#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

namespace dryfit::joinery::cutting {

/// One way to cut one bin (a bar, board or sheet).
struct MasterColumn {
  int bin = 0;
  double cost = 0;
  std::vector<std::pair<int, int>> items;  ///< item and how many; each item once
};

/// What the relaxed problem says an item is worth and a scarce bin costs on top.
struct MasterPrices {
  double value = 0;
  std::vector<double> item, bin;
};

/// Chooses patterns: least cost such that every item is cut often enough, no bin is used more often
/// than there is of it, and leaving an item out costs as much as given. Deterministic: its limits
/// count nodes, not time.
class MasterProblem {
 public:
  MasterProblem(const std::vector<int>& demands, const std::vector<int>& binCounts,
                const std::vector<double>& missingCosts);
  ~MasterProblem();
  MasterProblem(const MasterProblem&) = delete;
  MasterProblem& operator=(const MasterProblem&) = delete;

  /// `goOn` is asked again and again during a solve, on the thread that solves; false ends it
  /// within a hundred steps of the simplex method. What was found by then counts, but proves
  /// nothing.
  void askWhether(std::function<bool()> goOn);

  void add(const MasterColumn& column);
  [[nodiscard]] int columns() const;
  /// The problem with fractions of patterns allowed; nothing when the solver gives up.
  [[nodiscard]] std::optional<MasterPrices> relaxed();

  struct Whole {
    std::vector<int> copies;  ///< of each column, as added
    double cost = 0;          ///< with what is left out
    bool proved = false;      ///< no choice of these columns costs less
  };
  /// Whole patterns only, costing less than `below`; nothing when none was found in `nodesMost`
  /// nodes. `provedNone`, where given, tells whether there surely is none.
  ///
  /// `thorough`: with cutting planes and dives also for many columns; pays for a proof.
  [[nodiscard]] std::optional<Whole> whole(double below, int nodesMost, bool thorough = false,
                                           bool* provedNone = nullptr);

 private:
  struct Solver;
  std::unique_ptr<Solver> solver_;
  int items_, bins_, columns_ = 0;
};

}  // namespace dryfit::joinery::cutting

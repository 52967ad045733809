#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "joinery/layout/scaled_size.h"

namespace dryfit::joinery::cutting {

/// Pieces wanted from a bar. Kerf is already added to the size.
struct WorthLength {
  Size size = 0;
  double value = 0;
  int copies = 1;
};

/// The most that bars of every length up to `room` are worth with limited copies, by dynamic
/// programming over the sums that no shorter sum equals in value.
class BarKnapsack {
 public:
  BarKnapsack(std::span<const WorthLength> items, Size room, std::size_t statesMost = 60'000);

  /// False: there were too many sums and some were left out; values are then reached but may not
  /// be the most.
  [[nodiscard]] bool exact() const { return exact_; }
  [[nodiscard]] double value(Size room) const;
  /// No bar of this length is worth more, exact or not.
  [[nodiscard]] double bound(Size room) const;
  /// How many of each item a best bar of this length holds.
  [[nodiscard]] std::vector<int> counts(Size room) const;

 private:
  struct State {
    Size size;
    double value;
    std::int32_t step;  ///< index of the last item taken, with those before; -1: none
  };
  struct Step {
    std::int32_t item, before;
  };
  void addCopy(int item);
  [[nodiscard]] const State& stateAt(Size room) const;

  std::vector<WorthLength> items_;
  Size room_;
  std::size_t statesMost_;
  bool exact_ = true;
  std::vector<State> states_;
  std::vector<Step> steps_;
};

}  // namespace dryfit::joinery::cutting

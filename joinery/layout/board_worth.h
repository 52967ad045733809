#pragma once

#include <vector>

#include "joinery/layout/guillotine_knapsack.h"
#include "joinery/layout/layout_job.h"

namespace dryfit::joinery::cutting {

/// What is cut from a board when some of its limits are left out, and what that is worth.
struct LooseCutting {
  double value = 0;             ///< no cutting of the board is worth more
  std::vector<double> amounts;  ///< of each item, maybe a share of one
};

/// How much the boards of a job can be worth at most at given prices of its items. Two views, each
/// blind to what the other sees:
/// - by cuts: each clear stretch of the board as the rectangle around it, cut right through, any
///   number of each item; sees that lengths and widths must add up;
/// - by slices: each slice across the board filled by itself with no more copies than are wanted;
///   sees tapers, defects and how many are wanted.
/// Prices may be split between the views: what a board is worth at the sum is not more than the two
/// values together.
class BoardWorth {
 public:
  /// `counts`: how many of each item are wanted. The job outlives this.
  BoardWorth(const Job& job, const std::vector<int>& counts);

  [[nodiscard]] LooseCutting byCuts(int bin, const std::vector<double>& prices) const;
  [[nodiscard]] LooseCutting bySlices(int bin, const std::vector<double>& prices) const;
  /// The values alone, for all boards at once.
  [[nodiscard]] std::vector<double> allByCuts(const std::vector<double>& prices) const;
  [[nodiscard]] std::vector<double> allBySlices(const std::vector<double>& prices) const;

  [[nodiscard]] int bins() const { return static_cast<int>(boards_.size()); }
  [[nodiscard]] int items() const { return static_cast<int>(counts_.size()); }
  [[nodiscard]] const std::vector<int>& counts() const { return counts_; }
  [[nodiscard]] bool suits(int item, int bin) const {
    return job_.suits[static_cast<std::size_t>(item)][static_cast<std::size_t>(bin)] != 0;
  }

 private:
  struct Slice {
    Size length = 0;
    std::vector<Size> rooms;  ///< across, kerf added once
  };
  /// From one place where nothing can lie to the next. Kerf is added once to length and width.
  struct Stretch {
    Size length = 0, width = 0;
    std::vector<Slice> slices;
  };
  struct Rect {
    int item = 0;
    double share = 1;  ///< of the item's price
    Size length = 0, width = 0;
  };
  void addRects(const Job& job);
  [[nodiscard]] std::vector<Stretch> stretchesOf(const ClearWood& wood) const;
  [[nodiscard]] std::vector<const Rect*> wanted(int bin, const std::vector<double>& prices) const;

  const Job& job_;
  std::vector<int> counts_;
  Size kerf_, leastLength_ = 1, leastWidth_ = 1;
  std::vector<Rect> rects_;
  std::vector<std::vector<Stretch>> boards_;
};

}  // namespace dryfit::joinery::cutting

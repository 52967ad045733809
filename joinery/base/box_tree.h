#pragma once

#include <cstddef>
#include <span>
#include <utility>
#include <vector>

#include "kernel/geometry.h"

namespace dryfit::joinery {

/// A balanced tree over boxes that tells which of them share space with a given one, without asking
/// them all. Immutable once made. Making it takes O(n log n).
class BoxTree {
 public:
  explicit BoxTree(std::vector<kernel::Box3> boxes);

  /// Numbers, in rising order, of the boxes that share space with `box`; boxes that only touch it
  /// do not. O(log n) and what is found, for boxes that do not crowd each other.
  [[nodiscard]] std::vector<std::size_t> sharing(const kernel::Box3& box) const;

  /// All pairs i < j of which one, grown by `margin` on all sides, shares space with the other; in
  /// rising order.
  [[nodiscard]] std::vector<std::pair<std::size_t, std::size_t>> pairs(double margin = 0) const;

  [[nodiscard]] const kernel::Box3& box(std::size_t i) const { return boxes_[i]; }

 private:
  /// Covers places `first` up to, not including, `last` of `order_`. A leaf has no halves; the
  /// halves of any other node lie behind it, the near one first.
  struct Node {
    kernel::Box3 bounds;
    std::size_t first = 0, last = 0;
    std::size_t farHalf = 0;
  };

  void grow(std::size_t first, std::size_t last);
  /// Adds the boxes below node `from` that share space with `box`, in no order.
  void collect(const kernel::Box3& box, std::size_t from, std::vector<std::size_t>& found) const;

  std::vector<kernel::Box3> boxes_;
  std::vector<std::size_t> order_;
  std::vector<Node> nodes_;
};

}  // namespace dryfit::joinery

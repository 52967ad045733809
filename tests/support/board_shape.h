#pragma once

#include <vector>

#include "joinery/stock/stock.h"

namespace dryfit::test {

/// The outline of a board or sheet, judged by clipping its edges against rectangles.
class BoardShape {
 public:
  explicit BoardShape(const joinery::StockItem& item);

  [[nodiscard]] joinery::FlatRect around() const;
  [[nodiscard]] double area() const;
  /// The rectangle lies on the wood, `end` clear of both ends (of the rectangle around the board)
  /// and `edge` clear of its edges, measured across; all but `tolerance`.
  [[nodiscard]] bool holds(const joinery::FlatRect& rect, double end, double edge,
                           double tolerance) const;

 private:
  std::vector<joinery::FlatPoint> points_;
};

}  // namespace dryfit::test

#pragma once

#include <utility>
#include <vector>

#include "joinery/layout/cut_tree.h"
#include "joinery/layout/layout.h"

namespace dryfit::joinery::cutting {

/// Where parts may lie on one board or sheet: inside its outline, off its trims and its defects.
class ClearWood {
 public:
  ClearWood(const StockItem& item, const LayoutSettings& settings);

  /// The rectangle around all of it.
  [[nodiscard]] const Area& whole() const { return whole_; }
  /// The rectangle that trims leave of it; of a board that is no rectangle only its ends are cut.
  [[nodiscard]] const Area& usable() const { return usable_; }
  /// All of the usable rectangle is clear.
  [[nodiscard]] bool plain() const { return edges_.empty() && defects_.empty(); }
  /// No part at all can lie there.
  [[nodiscard]] bool none() const { return usable_.length <= 0 || usable_.width <= 0; }
  /// The stretches across the wood that are clear all the way from x0 to x1, from the datum edge.
  [[nodiscard]] std::vector<std::pair<Size, Size>> clear(Size x0, Size x1) const;
  /// Stretches across the wood outside which nothing is clear anywhere from x0 to x1, from the
  /// datum edge: never less than what `clear` finds for any part of x0 to x1.
  [[nodiscard]] std::vector<std::pair<Size, Size>> open(Size x0, Size x1) const;
  /// Where along the wood what is open may change, in rising order.
  [[nodiscard]] std::vector<Size> turningPoints() const;
  /// Where along the wood its clear stretches begin to change, in rising order.
  [[nodiscard]] const std::vector<Size>& steps() const { return steps_; }
  [[nodiscard]] const std::vector<Area>& defects() const { return defects_; }
  [[nodiscard]] bool tapers() const { return !edges_.empty(); }
  /// Area of clear wood at most, in squares of Size.
  [[nodiscard]] double areaMost() const { return areaMost_; }
  /// The largest clear rectangle within `piece` whose sides are at least these; empty if none.
  [[nodiscard]] Area largestClear(const Area& piece, Size lengthLeast, Size widthLeast) const;

 private:
  struct Edge {
    double ax, ay, bx, by;
  };
  [[nodiscard]] bool inside(double x, double y) const;

  Area whole_, usable_;
  Size edgeTrim_ = 0;
  std::vector<Edge> edges_;  ///< of an outline that is no rectangle
  std::vector<Area> defects_;
  std::vector<Size> steps_;
  double areaMost_ = 0;
};

/// The outline of a board or sheet, made from its two widths where none is given.
[[nodiscard]] std::vector<FlatPoint> outlineOf(const StockItem& item);

}  // namespace dryfit::joinery::cutting

#pragma once

#include <optional>
#include <span>
#include <vector>

#include "joinery/layout/cut_tree.h"
#include "joinery/layout/raster_points.h"

namespace dryfit::joinery::cutting {

/// A rectangle worth something, laid as it is. Kerf is already added to its sizes.
struct WorthRect {
  Size length = 0, width = 0;
  double value = 0;
};

/// A rectangle cut out of a sheet by the patterns below; `item` counts in the list it came from.
struct CutRect {
  int item = 0;
  Area area;
};

/// The most that a rectangle can be worth when cut right through again and again, any number of
/// each item: exact, by dynamic programming over raster points, for all smaller rectangles at once.
///
/// Values are kept as double, whole numbers up to 2^53 exactly. Time grows as n^2 · (n + m) / 4 for
/// n points along and m across.
class GuillotineKnapsack {
 public:
  /// `reduced`: only the value of the whole room is wanted, which needs fewer points. Nothing when
  /// the items make more than `pointsMost` points either way.
  [[nodiscard]] static std::optional<GuillotineKnapsack> solve(std::span<const WorthRect> items,
                                                               Size length, Size width,
                                                               std::size_t pointsMost,
                                                               bool reduced);

  /// Of the whole room.
  [[nodiscard]] double value() const;
  /// Of a part of the room; exact where it was not solved reduced.
  [[nodiscard]] double value(Size length, Size width) const;
  [[nodiscard]] double valueAt(int i, int j) const {
    return values_[static_cast<std::size_t>(j) * static_cast<std::size_t>(x_.count()) +
                   static_cast<std::size_t>(i)];
  }
  /// One best pattern of the whole room, kerf still in the sizes.
  [[nodiscard]] std::vector<CutRect> pattern() const;
  [[nodiscard]] const RasterPoints& x() const { return x_; }
  [[nodiscard]] const RasterPoints& y() const { return y_; }

 private:
  GuillotineKnapsack(std::span<const WorthRect> items, RasterPoints x, RasterPoints y);
  void fill();
  void ripRow(int j);
  void crossCutRow(int j);
  void trace(int i, int j, Size atX, Size atY, std::vector<CutRect>& cut) const;
  [[nodiscard]] double* row(int j);

  std::vector<WorthRect> items_;
  RasterPoints x_, y_;
  std::vector<double> values_;          ///< by row of equal width, then length
  std::vector<std::uint16_t> restOfX_;  ///< [i][k]: what is left of point i behind point k
};

}  // namespace dryfit::joinery::cutting

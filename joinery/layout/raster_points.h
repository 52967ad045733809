#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "joinery/layout/scaled_size.h"

namespace dryfit::joinery::cutting {

/// The only distances from an edge at which a cut can matter: sums of the parts' own sizes.
///
/// Source: normal patterns of N. Christofides and C. Whitlock, Operations Research 25 (1977) 30-44;
/// reduced as by J. Terno, R. Lindemann and G. Scheithauer (raster points).
class RasterPoints {
 public:
  /// All sums of `sizes`, any number of each, from 0 to `room`; nothing when there are more than
  /// `most`. `sizes` are greater than 0.
  [[nodiscard]] static std::optional<RasterPoints> sums(std::span<const Size> sizes, Size room,
                                                        std::size_t most);

  /// Only those that a cut counted from the far edge can reach too; as good for the whole room.
  [[nodiscard]] RasterPoints reduced() const;

  [[nodiscard]] const std::vector<Size>& points() const { return points_; }
  [[nodiscard]] int count() const { return static_cast<int>(points_.size()); }
  [[nodiscard]] Size at(int i) const { return points_[static_cast<std::size_t>(i)]; }
  [[nodiscard]] Size room() const { return room_; }
  /// Index of the greatest point not above `size`; `size` is at least 0.
  [[nodiscard]] int notAbove(Size size) const;
  /// Index of the least point not below `size`; `count()` when there is none.
  [[nodiscard]] int notBelow(Size size) const;

 private:
  std::vector<Size> points_{0};
  Size room_ = 0;
};

}  // namespace dryfit::joinery::cutting

#pragma once

#include <numeric>
#include <vector>

#include "kernel/geometry.h"

namespace dryfit::joinery {

constexpr double kSameWay = 1e-3;  ///< ways that differ by less are one; lengths are 1
constexpr double kTouch = 1e-6;    ///< mm

/// Least and most of a box along a way of length 1.
[[nodiscard]] double least(const kernel::Box3& box, kernel::Vec3 way);
[[nodiscard]] double most(const kernel::Box3& box, kernel::Vec3 way);
[[nodiscard]] kernel::Box3 moved(kernel::Box3 box, kernel::Vec3 by);
/// Whether they share space, not only a face.
[[nodiscard]] bool overlapping(const kernel::Box3& a, const kernel::Box3& b);
/// In which a box that stands beside another leaves it: a member of a frame its panel.
[[nodiscard]] kernel::Vec3 awayFrom(const kernel::Box3& from, const kernel::Box3& box);
[[nodiscard]] bool sameLine(kernel::Vec3 a, kernel::Vec3 b);
/// Whether a box that moves along `way` could come upon the other: told by the axes square to it.
[[nodiscard]] bool inLine(const kernel::Box3& a, const kernel::Box3& b, kernel::Vec3 way);

/// Sets of parts that stay together.
class Together {
 public:
  explicit Together(std::size_t count) : parent_(count) {
    std::iota(parent_.begin(), parent_.end(), std::size_t{0});
  }
  std::size_t of(std::size_t i) {
    while (parent_[i] != i) i = parent_[i] = parent_[parent_[i]];
    return i;
  }
  bool join(std::size_t a, std::size_t b) {
    a = of(a), b = of(b);
    if (a == b) return false;
    parent_[std::max(a, b)] = std::min(a, b);
    return true;
  }

 private:
  std::vector<std::size_t> parent_;
};

}  // namespace dryfit::joinery

#pragma once

#include <vector>

namespace dryfit::kernel {

/// A stretch of a line, or of a turn in radians: from < to.
struct Interval {
  double from = 0, to = 0;
  friend bool operator==(const Interval&, const Interval&) = default;
};

/// The union, in order; stretches that overlap or stand no further apart than `gap` are one.
[[nodiscard]] std::vector<Interval> united(std::vector<Interval> pieces, double gap);

/// What of `pieces` no `cover` covers, in order, without leftovers of length `gap` or less.
/// REQUIRES: both are outcomes of `united`.
[[nodiscard]] std::vector<Interval> uncovered(const std::vector<Interval>& pieces,
                                              const std::vector<Interval>& cover, double gap);

}  // namespace dryfit::kernel

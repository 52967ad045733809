#pragma once

#include <vector>

#include "joinery/base/unit.h"

namespace dryfit::joinery {

/// What a shop works with: its chisels and cutters, and how finely it sets out. Numbers that are
/// left to the rules come out as these.
struct ShopMeasures {
  std::vector<double> cutters;  ///< widths, mm, rising; at least one
  std::vector<double> dowels;   ///< diameters, mm, rising; at least one
  double step = 0.5;            ///< mm to which sizes that follow from a share are rounded
  Unit unit = Unit::mm;         ///< in which what is bought is called: mm or inches

  /// The width nearest to `wanted` that does not exceed `most`; the smallest of all where even that
  /// is too wide. Of two equally near, the narrower.
  [[nodiscard]] double cutterNear(double wanted, double most) const;
  /// The same of dowels.
  [[nodiscard]] double dowelNear(double wanted, double most) const;
  /// `value` rounded down to the step, but by less than rounding noise never.
  [[nodiscard]] double setOut(double value) const;
  friend bool operator==(const ShopMeasures&, const ShopMeasures&) = default;
};

/// The usual set of a shop that works in this unit: millimetres, or inches and their fractions.
[[nodiscard]] const ShopMeasures& usualMeasures(Unit unit);

}  // namespace dryfit::joinery

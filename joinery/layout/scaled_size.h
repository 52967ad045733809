#pragma once

#include <cmath>
#include <cstdint>

namespace dryfit::joinery::cutting {

/// A length on stock as a whole number of ten-thousandths of a millimetre, so that sums of parts
/// and kerfs are exact. Inch sizes down to 1/64 in are met to 0.05 thousandths of a millimetre.
using Size = std::int64_t;

constexpr double kSizesPerMm = 1e4;

/// The nearest size; a part's own.
[[nodiscard]] inline Size sizeOf(double mm) {
  return static_cast<Size>(std::llround(mm * kSizesPerMm));
}

/// The room on stock: a thousandth of a millimetre more than measured, so that parts in inch
/// fractions that add up to the stock exactly are not lost to rounding.
[[nodiscard]] inline Size roomOf(double mm) {
  return sizeOf(mm) + 10;
}

[[nodiscard]] inline double mmOf(Size size) {
  return static_cast<double>(size) / kSizesPerMm;
}

}  // namespace dryfit::joinery::cutting

#pragma once

#include "kernel/result.h"

namespace dryfit::joinery {

/// The least size of a part or material in mm: thinner than any veneer.
inline constexpr double kLeastSize = 0.01;

/// Sizes are greater than kLeastSize and at most kernel::kLargest, in mm. Error: badDimension.
[[nodiscard]] Result<void> checkSize(double mm);
/// Coordinates are finite and within kernel::kLargest of the origin, in mm. Error: badDimension.
[[nodiscard]] Result<void> checkCoordinate(double mm);

}  // namespace dryfit::joinery

#pragma once

#include "kernel/geometry.h"

namespace dryfit::kernel {

/// The same frame, with axes at exactly 0 and ±1 where it is square: turning by 90° leaves 6e-17
/// behind.
[[nodiscard]] Frame snapped(const Frame& frame);

/// The box between two placed corners. REQUIRES: frame.isSquare(). Exact but for one rounding a
/// coordinate when the frame is snapped.
[[nodiscard]] Box3 cornersPlaced(const Frame& frame, const Box3& box);

}  // namespace dryfit::kernel

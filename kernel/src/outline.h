#pragma once

#include <span>
#include <vector>

#include "kernel/geometry.h"
#include "kernel/result.h"

namespace dryfit::kernel {

/// Twice the signed area of a closed outline (shoelace formula); positive when anticlockwise.
[[nodiscard]] double twiceArea(std::span<const Point2> outline);

/// The outline anticlockwise, without repeated points and without points on a straight run.
/// Error badDimension when it has fewer than three corners, encloses nothing, meets itself or is
/// not finite.
[[nodiscard]] Result<std::vector<Point2>> cleanOutline(std::span<const Point2> outline);

}  // namespace dryfit::kernel

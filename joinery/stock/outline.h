#pragma once

#include <span>
#include <vector>

#include "joinery/stock/stock.h"

namespace dryfit::joinery {

/// Area inside a closed outline, mm²; the sense of turning does not matter. 0 for fewer than three
/// points.
[[nodiscard]] double areaOf(std::span<const FlatPoint> outline);

/// True where two sides of a closed outline meet in more than the corner that neighbours share.
/// O(n²).
[[nodiscard]] bool crossesItself(std::span<const FlatPoint> outline);

/// Area that an outline and a rectangle share, mm². The outline need not be convex.
[[nodiscard]] double sharedArea(std::span<const FlatPoint> outline, const FlatRect& rect);

}  // namespace dryfit::joinery

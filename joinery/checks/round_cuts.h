#pragma once

#include <optional>

#include "joinery/piece/piece.h"

namespace dryfit::joinery::checking {

/// Least distance in mm between a round hole and a square cut, or two round holes that run the same
/// way, by plane geometry: 0 where they meet. Nothing for other cuts, and for holes that run along
/// no axis of the part or out at its sides. `overall` is the part's.
[[nodiscard]] std::optional<double> roundWall(const kernel::Box3& overall, const Feature& a,
                                              const Feature& b);

}  // namespace dryfit::joinery::checking

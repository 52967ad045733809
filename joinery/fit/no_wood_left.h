#pragma once

#include "joinery/piece/piece.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// The error for a part of which its cuts leave nothing: names the joints that take the most, as
/// many as it needs to take all of it, and what would mend it. `where` is the part's name.
[[nodiscard]] Error noWoodLeft(const Piece& piece, const PlacedPart& part);

}  // namespace dryfit::joinery

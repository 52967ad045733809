#pragma once

#include <vector>

#include "joinery/piece/piece.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// Parts of which their cuts leave nothing, in the order of the piece. Only those whose cuts could
/// take all their wood are built to know. Such a part stands in for itself uncut wherever solids
/// are needed; the check tells of it.
[[nodiscard]] std::vector<PartId> partsWithoutWood(const Piece& piece);

/// Why nothing is left of a part: names the joints that take the most, as many as it needs to take
/// all of it, and what would mend it. `where` is the part's name.
[[nodiscard]] Error noWoodLeft(const Piece& piece, const PlacedPart& part);

}  // namespace dryfit::joinery

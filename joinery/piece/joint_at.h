#pragma once

#include <optional>
#include <vector>

#include "joinery/piece/place_on_part.h"

namespace dryfit::joinery {

/// The joint whose cheek or wall is at a point on a part's surface, given in the piece:
/// of several the one with the smallest cut there. None where the surface is the part's own.
[[nodiscard]] std::optional<JointId> jointAt(const Piece& piece, PartId part, kernel::Point3 at);

/// The joints that stand on a face of a part or enter by it, in the order of the model; of an edge
/// or a corner those of its faces.
[[nodiscard]] std::vector<JointId> jointsAt(const Piece& piece, const PlaceOnPart& place);

}  // namespace dryfit::joinery

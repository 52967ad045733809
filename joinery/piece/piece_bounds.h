#pragma once

#include "joinery/piece/piece.h"

namespace dryfit::joinery {

/// The box round all parts of a piece as they stand, tenons included; a box of no size without any.
[[nodiscard]] kernel::Box3 boundsOf(const Piece& piece);

}  // namespace dryfit::joinery

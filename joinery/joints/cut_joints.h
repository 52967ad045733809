#pragma once

#include "joinery/joints/evaluate.h"
#include "joinery/piece/piece.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// A piece whose parts are placed, with every joint cut into its mates. Errors as jointTable, and
/// those of joints; `where` begins with "joints.NAME".
[[nodiscard]] Result<Piece> cutJoints(Piece piece);
[[nodiscard]] Result<Piece> cutJoints(Piece piece, NumberMemory& memory);

}  // namespace dryfit::joinery

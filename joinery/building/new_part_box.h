#pragma once

#include "joinery/file/part_edits.h"
#include "joinery/piece/piece.h"

namespace dryfit::joinery {

/// Where a part to be made would stand with what is written of it so far; an end not yet written
/// reaches as far as the piece does, a thickness not written is the material's. Works out nothing
/// but these few numbers, so that it can follow a pointer in any piece. Errors: badExpression,
/// unknownName; spansUnfit (two spans along one axis, or an end before its beginning).
[[nodiscard]] Result<kernel::Box3> boxOf(const Piece& piece, const NewPart& part);

}  // namespace dryfit::joinery

#pragma once

#include "joinery/formula/expression_cache.h"
#include "joinery/piece/piece.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// Works out every taper and gives it to its parts. A taper that was measured is no part of the
/// drawn design. Errors: badExpression, unknownName, badDimension (nothing would be left of the
/// narrow end, or it starts beyond the part), faceNotAcross (a face that does not lie across the
/// size); with the place: "tapers.legs.by".
[[nodiscard]] Result<void> placeTapers(Piece& piece, ExpressionCache& expressions);

}  // namespace dryfit::joinery

#pragma once

#include "joinery/piece/piece.h"
#include "joinery/piece/size_memory.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// Works out every number of the model: dimensions, materials, spans, turns, but not the joints.
/// Expressions may read, in any order, dimensions ("stock"), materials ("oak.thickness"), part
/// faces ("left_stile.right") and part sizes ("left_stile.width").
///
/// With Basis::measured a measured size takes the place of the drawn one, and all that reads it
/// follows. A part given by `from` and `to` keeps `from`.
/// Errors: badExpression, unknownName, cycle (names the loop: "a -> b -> a"), badDimension (zero,
/// negative or beyond the workshop), each with its place in the model.
[[nodiscard]] Result<Piece> placeParts(const Model& model, Basis basis);
[[nodiscard]] Result<Piece> placeParts(const Model& model, Basis basis, SizeMemory& memory);

}  // namespace dryfit::joinery

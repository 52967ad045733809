#pragma once

#include "joinery/number_memory.h"
#include "joinery/piece.h"
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
[[nodiscard]] Result<Piece> placeParts(const Model& model, Basis basis, NumberMemory& memory);

/// placeParts, then every joint cut into its mates. Errors as placeParts, and badJoint.
[[nodiscard]] Result<Piece> evaluate(const Model& model, Basis basis);
/// The same, in every number and error, taking over from `memory` what did not change. On error the
/// memory keeps the state before.
[[nodiscard]] Result<Piece> evaluate(const Model& model, Basis basis, NumberMemory& memory);

}  // namespace dryfit::joinery

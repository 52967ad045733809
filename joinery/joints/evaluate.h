#pragma once

#include "joinery/joints/cut_memory.h"
#include "joinery/piece/piece.h"
#include "joinery/piece/size_memory.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// What `evaluate` keeps of the last state that it could work out: the numbers, and each joint to
/// be taken over where its inputs are equal. Asked by content alone, as SizeMemory is.
struct NumberMemory : SizeMemory {
  CutMemory cut;

  int jointsCut = 0;  ///< by the last call
};

/// placeParts, then every joint cut into its mates. A joint that cannot be cut leaves its mates as
/// they are and says why (PlacedJoint::notCut). Errors: as placeParts and jointTable.
[[nodiscard]] Result<Piece> evaluate(const Model& model, Basis basis);
/// The same, in every number and error, taking over from `memory` what did not change. On error the
/// memory keeps the state before.
[[nodiscard]] Result<Piece> evaluate(const Model& model, Basis basis, NumberMemory& memory);

}  // namespace dryfit::joinery

#pragma once

#include <vector>

#include "joinery/base/progress.h"
#include "joinery/checks/check_memory.h"
#include "joinery/joints/evaluate.h"
#include "joinery/piece/finding.h"
#include "kernel/solid.h"

namespace dryfit::joinery {

/// A piece put together without glue: all numbers, all solids, all findings.
struct DryFit {
  Piece piece;
  std::vector<kernel::Solid> solids;  ///< by PartId, each in its part's frame
  std::vector<Finding> findings;      ///< worst first, then by kind and part number

  /// A part's solid where it stands in the piece.
  [[nodiscard]] kernel::Solid placed(PartId id) const;
};

/// The solids of all parts, in their own frames, equal parts sharing one solid, on all cores.
/// Errors: as kernel::build, `where` names the part; cancelled.
[[nodiscard]] Result<std::vector<kernel::Solid>> buildSolids(const Piece& piece,
                                                             const Progress& progress = {});

/// Every check, worst finding first, then by kind and part number. Same input, same order,
/// with or without a memory of earlier states. Sizes in the findings' words are in `unit`, their
/// numbers in mm. `progress` counts checks, and is asked within them too, at least once a part.
/// Errors: libraryFailure, cancelled.
[[nodiscard]] Result<std::vector<Finding>> checkPiece(const Piece& piece,
                                                      const std::vector<kernel::Solid>& solids,
                                                      const Progress& progress = {},
                                                      CheckMemory* memory = nullptr,
                                                      Unit unit = Unit::mm);

/// Evaluate, build, check.
[[nodiscard]] Result<DryFit> dryFit(const Model& model, Basis basis, const Progress& progress = {},
                                    Unit unit = Unit::mm);

}  // namespace dryfit::joinery

#pragma once

#include <vector>

#include "joinery/piece/piece.h"
#include "kernel/hidden_lines.h"

namespace dryfit::exporting {

/// By part: false where no eye looking that way can see any of it, since it lies wholly behind wood
/// of one other part that no cut touches. What is hidden by several parts together counts as seen,
/// and so does everything where the eye looks along no axis of the parts; parts in `away` hide
/// nothing and are not seen.
[[nodiscard]] std::vector<bool> partsInSight(const joinery::Piece& piece,
                                             const kernel::Viewpoint& eye,
                                             const std::vector<bool>& away);

}  // namespace dryfit::exporting

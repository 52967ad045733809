#pragma once

#include <vector>

#include "export/drawing/part_drawing.h"

namespace dryfit::exporting {

/// The whole piece: front, top and left view in first angle projection with overall sizes and the
/// part numbers of the groups, and the list of parts.
///
/// `solids` are by PartId, each in its part's frame. Errors: libraryFailure; badDimension where no
/// sheet can hold the drawing.
[[nodiscard]] Result<Sheet> drawAssembly(const joinery::Piece& piece,
                                         const std::vector<kernel::Solid>& solids,
                                         const std::vector<joinery::PartGroup>& groups,
                                         const DrawingOptions& options);

}  // namespace dryfit::exporting

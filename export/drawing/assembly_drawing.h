#pragma once

#include <vector>

#include "export/drawing/part_drawing.h"

namespace dryfit::exporting {

/// The whole piece: front, top and left view in first angle projection with overall sizes, views of
/// what they hide, each part number in one of them, an isometric view where there is room, and the
/// list of parts. One sheet, or two where one would have to be larger than A3.
///
/// `solids` are by PartId, each in its part's frame. Errors: libraryFailure; badDimension where no
/// sheets can hold the drawing.
[[nodiscard]] Result<std::vector<Sheet>> drawAssembly(const joinery::Piece& piece,
                                                      const std::vector<kernel::Solid>& solids,
                                                      const std::vector<joinery::PartGroup>& groups,
                                                      const DrawingOptions& options);

}  // namespace dryfit::exporting

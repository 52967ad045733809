#pragma once

#include <string>
#include <vector>

#include "export/drawing/sheet.h"
#include "export/drawing/view_memory.h"
#include "joinery/model/model.h"
#include "joinery/piece/part_list.h"
#include "joinery/piece/piece.h"
#include "kernel/result.h"
#include "kernel/solid.h"

namespace dryfit::exporting {

/// What the caller decides about a drawing.
struct DrawingOptions {
  joinery::Unit unit = joinery::Unit::mm;
  std::string date;      ///< of issue; DEFAULT: open
  std::string owner;     ///< legal owner; DEFAULT: open
  std::string creator;   ///< DEFAULT: open
  std::string approval;  ///< DEFAULT: open
  int sheet = 1, sheets = 1;
  ViewMemory* memory = nullptr;     ///< of earlier pictures; may be null
  std::vector<std::string> errors;  ///< of the dry fit, that name what is drawn: not to be cut from
  std::string format;  ///< "A4", "A3", ...; DEFAULT: the smallest on which the drawing reads well
};

/// One part group's drawing: three views in first angle projection (face side, face edge, end) at
/// an ISO 5455 scale, enlarged end views and sections of its joints, a table with every joint
/// dimension keyed by letters, and a title block.
///
/// `solids` are by PartId, each in its part's frame. The group's first part is drawn.
/// Errors: libraryFailure; badDimension where no sheet can hold the drawing.
[[nodiscard]] Result<Sheet> drawPart(const joinery::Piece& piece,
                                     const std::vector<kernel::Solid>& solids,
                                     const joinery::PartGroup& group,
                                     const DrawingOptions& options);

}  // namespace dryfit::exporting

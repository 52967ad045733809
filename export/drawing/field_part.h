#pragma once

#include "joinery/piece/piece.h"
#include "kernel/solid.h"

namespace dryfit::exporting {

/// A part as its drawing takes it: from shoulder to shoulder of what is really cut.
struct FieldPart {
  joinery::PlacedPart part;
  kernel::Solid solid;  ///< in the part's frame
};

/// The same part; or, of a panel whose field is set back from its frame, one whose blank is the
/// field, so that every size is taken from a shoulder that is there. What sets the field back is
/// then no feature of its own.
[[nodiscard]] FieldPart fieldPart(const joinery::PlacedPart& part, const kernel::Solid& solid);

}  // namespace dryfit::exporting

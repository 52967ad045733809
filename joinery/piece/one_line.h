#pragma once

#include "joinery/piece/piece.h"

namespace dryfit::joinery {

/// Moves play that lies half on either cheek to the cheek away from the first mate's face side, or
/// from its face edge where the cheeks lie across its width. So both halves of a joint are set out
/// from one line, with one setting of the gauge, and the fit is taken off once, at the other cheek.
/// Common practice. REQUIRES: all joints are cut, and the face marks chosen.
void setOutFromOneLine(Piece& piece);

}  // namespace dryfit::joinery

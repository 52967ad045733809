#pragma once

#include "joinery/piece/piece.h"

namespace dryfit::joinery {

/// Face side and face edge of the parts whose author named none: the face, and the edge, by which
/// more joints enter, since joints are set out from them; the near one where they are equal. So the
/// two stiles of a door are marked on their inner edges, and are a pair. A part whose taper is on
/// the side opposite to a mark keeps the near face. Common practice. REQUIRES: all joints are cut.
void chooseFaceMarks(Piece& piece);

}  // namespace dryfit::joinery

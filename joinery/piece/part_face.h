#pragma once

#include <string>

#include "joinery/base/face.h"
#include "joinery/base/ids.h"
#include "joinery/piece/piece.h"

namespace dryfit::joinery {

/// A face of a part of a piece.
struct PartFace {
  PartId part;
  Face face = Face::left;
  friend bool operator==(PartFace, PartFace) = default;
};

/// As expressions name it: "left_side.right".
[[nodiscard]] std::string writtenName(const Piece& piece, PartFace at);
/// Where it stands along its axis of the piece, as drawn before any turning; mm.
[[nodiscard]] double standsAt(const Piece& piece, PartFace at);

}  // namespace dryfit::joinery

#pragma once

#include <string>
#include <vector>

#include "joinery/piece/piece.h"

namespace dryfit::joinery {

/// Parts that are made alike: equal in form, material, grain, joints, edgings and face marks, or so
/// after turning end for end or over. A mirrored part (left and right of a pair) is a group of its
/// own, with `mirrorOf` set to the other.
struct PartGroup {
  int number = 0;                   ///< 1-based, as printed on drawings and in the cut list
  std::vector<PartId> parts;        ///< first one stands for all
  int mirrorOf = 0;                 ///< number of the group this one mirrors, 0 for none
  Length length, width, thickness;  ///< finished, tenons and tongues included
  /// From shoulder to shoulder along the longest and the shortest of the four long edges: the same
  /// where the ends are square.
  Length shoulderLength, shoulderShortest;
};

/// All parts, grouped, in the order in which the model first names them.
[[nodiscard]] std::vector<PartGroup> groupParts(const Piece& piece);

}  // namespace dryfit::joinery

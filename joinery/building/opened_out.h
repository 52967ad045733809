#pragma once

#include <string>
#include <vector>

#include "joinery/piece/piece.h"

namespace dryfit::joinery {

/// How a piece is opened out along the ways in which its joints part: in stages, as it would be
/// taken apart. What a stage parts moves straight, along the joints' own way, until it is clear;
/// only then does the next stage move. A sub-assembly comes off whole before it is opened itself.
class OpenedOut {
 public:
  /// Of a piece whose joints are cut. Cost grows with the square of the parts.
  [[nodiscard]] static OpenedOut of(const Piece& piece);

  /// How far a part stands from its place, in the piece; mm. `share`: 0 together, 1 wide open.
  [[nodiscard]] kernel::Vec3 offset(PartId part, double share) const;
  [[nodiscard]] int stages() const { return stages_; }
  /// Joints that no straight move parts while the others are as they are.
  [[nodiscard]] const std::vector<JointId>& closed() const { return closed_; }

 private:
  struct Move {
    int stage = 0;
    kernel::Vec3 by;
  };
  int stages_ = 0;
  std::vector<std::vector<Move>> moves_;  ///< by part
  std::vector<JointId> closed_;
  friend class Opener;
};

}  // namespace dryfit::joinery

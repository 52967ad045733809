#pragma once

#include <array>
#include <optional>

#include "joinery/piece/piece.h"

namespace dryfit::exporting {

/// A cut that goes into its face out of square, as the mortise for a leaning leg does, with what
/// can be knifed and gauged of it: where it opens on the face, and how deep its walls are.
struct LeaningCut {
  kernel::Box3 opening;               ///< on the face it enters by; flat, in the part's frame
  std::optional<kernel::Box3> exit;   ///< on the opposite face, of a cut that goes through
  int axis = 0;                       ///< of the part: along it the cut leans
  double degrees = 0;                 ///< off square, over 0 where it goes in toward the far side
  double degreesAcross = 0;           ///< the same along the face's other axis
  std::array<double, 2> walls{0, 0};  ///< depth along the wall at the near and the far side, mm
};

/// None for what enters square, by an end, or is no plain block.
[[nodiscard]] std::optional<LeaningCut> leaningCut(const joinery::PlacedPart& part,
                                                   const joinery::Feature& feature);

}  // namespace dryfit::exporting

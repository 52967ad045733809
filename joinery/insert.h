#pragma once

#include <optional>
#include <vector>

#include "joinery/piece.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// Where one mate's face meets the other's. Stated in the frame of the first mate, the one that
/// carries the tenon, tongue or panel edge.
struct Contact {
  LocalFace face;       ///< of the first mate
  LocalFace otherFace;  ///< of the second mate, in the second mate's frame
  double plane = 0;     ///< coordinate of the first mate's face along face.axis
  kernel::Box3 area;    ///< the shared rectangle, flat along face.axis
  double gap = 0;       ///< mm from face to face along the outward direction; < 0: they overlap
  bool square = true;   ///< the faces are parallel within 1e-9
};

/// The faces by which two parts meet: parallel and nearest, or as named. Error: badJoint when no
/// two faces look at each other within 50 mm.
[[nodiscard]] Result<Contact> findContact(const PlacedPart& first, const PlacedPart& second,
                                          std::optional<Face> firstFace = std::nullopt);

}  // namespace dryfit::joinery

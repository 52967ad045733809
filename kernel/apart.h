#pragma once

#include <optional>
#include <span>

#include "kernel/geometry.h"
#include "kernel/result.h"

namespace dryfit::kernel {

/// How far two places are apart, and how they lie to each other.
struct Apart {
  double distance = 0;          ///< mm, the least
  Vec3 from, to;                ///< the nearest points, on the first and on the second
  std::optional<double> angle;  ///< radians, 0 to a right angle; none where either is a corner
};

/// Of two places, each by its corners: one of a corner, two of a straight edge, three or more in
/// order round a plane face. Errors: badDimension (no corners), libraryFailure.
[[nodiscard]] Result<Apart> apartOf(std::span<const Point3> a, std::span<const Point3> b);

}  // namespace dryfit::kernel

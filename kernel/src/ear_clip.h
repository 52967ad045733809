#pragma once

#include <array>
#include <span>
#include <vector>

#include "kernel/geometry.h"

namespace dryfit::kernel {

/// Cuts a plane area into triangles that have its corners and no others. `corners` holds all
/// loops, one after the other; `ends[i]` is where loop i stops. The first loop is the outer one and
/// turns counter-clockwise, the others are holes and turn clockwise. Triangles turn
/// counter-clockwise. None where loops that touch kept the method from an end. O(n²) for n corners.
///
/// Method: David Eberly, "Triangulation by Ear Clipping", 2002: each hole is joined to what is
/// round it by a bridge, then ears are cut off one by one.
[[nodiscard]] std::vector<std::array<int, 3>> clipEars(std::span<const Point2> corners,
                                                       std::span<const int> ends);

}  // namespace dryfit::kernel

#pragma once

#include <array>
#include <vector>

#include "kernel/square_work.h"

namespace dryfit::kernel {

/// Triangles of one face of square work: its corners, loop after loop in their order, and no
/// others.
struct FaceMesh {
  std::vector<Point3> points;
  std::vector<std::array<int, 3>> triangles;  ///< outward by the right hand
};
[[nodiscard]] FaceMesh meshOf(const SquareWork& work, const SquareWork::Face& face);

}  // namespace dryfit::kernel

#pragma once

#include <array>
#include <vector>

#include "kernel/solid.h"

namespace dryfit::kernel {

/// Triangles for the screen. Vertices are per face, so that edges stay sharp.
struct Mesh {
  std::vector<Point3> points;
  std::vector<std::array<int, 3>> triangles;  ///< indices into points, outward by the right hand
  std::vector<int> faceOfTriangle;            ///< which face (0-based) each triangle lies on
};

/// Triangles no further than `sag` from the true surface. Error: libraryFailure.
[[nodiscard]] Result<Mesh> triangulate(const Solid& solid, Length sag = Length::mm(0.2));

}  // namespace dryfit::kernel

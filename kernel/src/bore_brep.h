#pragma once

#include <TopoDS_Face.hxx>
#include <TopoDS_Shape.hxx>
#include <vector>

#include "kernel/square_work.h"

namespace dryfit::kernel {

/// What a bore brings to the boundary of its part.
struct BoreShapes {
  TopoDS_Shape mouth;               ///< the wire that is a hole in the face it enters by
  TopoDS_Shape exit;                ///< the same in the face it leaves by; null where it is blind
  std::vector<TopoDS_Shape> faces;  ///< its wall, and its bottom where it is blind
};

/// Throws what the geometry library throws.
[[nodiscard]] BoreShapes shapesOf(const SquareWork::Bore& bore);

}  // namespace dryfit::kernel

#pragma once

#include <TopoDS_Shape.hxx>

#include "kernel/square_work.h"

namespace dryfit::kernel {

/// The boundary representation of square work: one solid, or a flat compound of several. Planes and
/// lines only, no curves in the planes' parameters (the library works those out where it wants
/// them). No check is run, and none is needed: see the source. Throws what the geometry library
/// throws.
[[nodiscard]] TopoDS_Shape squareShape(const SquareWork& work);

/// The same, with triangles hung on its faces and edges for the screen; a null shape where some
/// face is too knotty for our own triangles. REQUIRES: work.bores.empty().
[[nodiscard]] TopoDS_Shape meshedSquareShape(const SquareWork& work);

}  // namespace dryfit::kernel

#pragma once

#include <TopoDS_Shape.hxx>

#include "kernel/square_work.h"

namespace dryfit::kernel {

/// The boundary representation of square work: one solid, or a flat compound of several. Planes and
/// lines only, no curves in the planes' parameters (the library works those out where it wants
/// them). No check is run, and none is needed: see the source. Throws what the geometry library
/// throws.
[[nodiscard]] TopoDS_Shape squareShape(const SquareWork& work);

}  // namespace dryfit::kernel

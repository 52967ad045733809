#pragma once

#include <TopoDS_Shape.hxx>

#include "kernel/solid.h"

namespace dryfit::kernel {

/// The raw shared wood of two solids: a shape without solids in it where they share none.
/// Throws what the geometry library throws. Error: libraryFailure.
[[nodiscard]] Result<TopoDS_Shape> commonShape(const Solid& a, const Solid& b);

}  // namespace dryfit::kernel

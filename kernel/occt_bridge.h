#pragma once

// The one header through which export and viewer reach the geometry library's own shape. Nothing in
// joinery may include it; tests/layering enforces that.

#include <TopoDS_Shape.hxx>

#include "kernel/solid.h"

namespace dryfit::kernel {

/// The shape behind a solid, placement included. Never modify it.
[[nodiscard]] const TopoDS_Shape& shapeOf(const Solid& solid);

/// A solid from a shape, for readers of exchange files and for tests. Error: invalidSolid.
[[nodiscard]] Result<Solid> solidFrom(const TopoDS_Shape& shape);

}  // namespace dryfit::kernel

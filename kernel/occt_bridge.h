#pragma once

// The one header through which export and viewer reach the geometry library's own shape. Nothing in
// joinery may include it; tests/layering enforces that.

#include <TopoDS_Shape.hxx>
#include <span>

#include "kernel/solid.h"

namespace dryfit::kernel {

/// The shape behind a solid, placement included. Never modify it.
[[nodiscard]] const TopoDS_Shape& shapeOf(const Solid& solid);

/// A shape of the same body, placement left out, that shares nothing with the solid's own and bears
/// triangles for the screen: no further than `sag` mm from the true surface, no facet of a round
/// turning by more than `sagAngle` radians. Throws what the geometry library throws.
[[nodiscard]] TopoDS_Shape meshedShapeOf(const Solid& solid, double sag, double sagAngle);

/// A vertex, a straight edge or a plane face, by its one, two or more corners in order. Throws what
/// the geometry library throws. REQUIRES: corners is not empty.
[[nodiscard]] TopoDS_Shape outlineShape(std::span<const Point3> corners);

/// A solid from a shape, for readers of exchange files and for tests. Error: invalidSolid.
[[nodiscard]] Result<Solid> solidFrom(const TopoDS_Shape& shape);

}  // namespace dryfit::kernel

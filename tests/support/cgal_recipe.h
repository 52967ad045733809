#pragma once

#include <optional>

#include "kernel/recipe.h"

namespace dryfit::test {

/// The volume in mm³ of the part a recipe describes, by a second geometry library: CGAL's Boolean
/// operations on triangle meshes in exact arithmetic (Surface_mesh corefinement; where two lumps
/// meet in an edge, which a triangle mesh cannot hold, Nef polyhedra). Nothing of the kernel's own
/// Boolean operations is used. The tools' corners are the rounded numbers that `Frame::place`
/// gives, taken exactly. 0 when nothing is left.
///
/// Nothing for a recipe with a cylinder: exact arithmetic has no round.
[[nodiscard]] std::optional<double> cgalVolume(const kernel::Recipe& recipe);

}  // namespace dryfit::test

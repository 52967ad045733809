#pragma once

#include <string>

#include "kernel/recipe.h"

namespace dryfit::test {

/// The boxes of a square recipe, one a line, for failure messages.
[[nodiscard]] std::string shown(const kernel::Recipe& recipe);

/// Fails the running test unless the two solids have the same volume and area (1e-9 relative), the
/// same centroid and bounds, and the same counts of faces, edges and vertices.
void expectSame(const kernel::Solid& a, const kernel::Solid& b);

/// Holds `build` of a recipe against its own shape as the geometry library sees it, validity
/// included, and against `buildGeneral`.
void expectBothWaysAgree(const kernel::Recipe& recipe);

}  // namespace dryfit::test

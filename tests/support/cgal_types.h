#pragma once

#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Surface_mesh.h>

namespace dryfit::test {

using Exact = CGAL::Exact_predicates_exact_constructions_kernel;
using ExactMesh = CGAL::Surface_mesh<Exact::Point_3>;

/// An exact number as a double, to 1e-12 relative: by its interval where that is narrow enough,
/// else by its exact value. (CGAL's own to_double promises 1e-5 only.)
[[nodiscard]] inline double toDouble(const Exact::FT& number) {
  const auto [low, high] = CGAL::to_interval(number);
  if (high - low <= 1e-12 * (low > 0 ? low : -high)) return (low + high) / 2;
  return CGAL::to_double(CGAL::exact(number));
}

}  // namespace dryfit::test

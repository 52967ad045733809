#include "kernel/apart.h"

#include <BRepExtrema_DistShapeShape.hxx>
#include <cmath>

#include "kernel/occt_bridge.h"
#include "kernel/src/guarded.h"

namespace dryfit::kernel {
namespace {

/// Along an edge, or square to a face.
std::optional<Vec3> directionOf(std::span<const Point3> corners) {
  if (corners.size() < 2) return std::nullopt;
  const Vec3 along = corners[1] - corners[0];
  return corners.size() == 2 ? along : along.cross(corners[2] - corners[1]);
}

std::optional<double> angleBetween(std::span<const Point3> a, std::span<const Point3> b) {
  const auto first = directionOf(a), second = directionOf(b);
  if (!first || !second) return std::nullopt;
  const double between = std::atan2(first->cross(*second).norm(), std::abs(first->dot(*second)));
  // A line lies to a plane as it does not to what is square to the plane.
  return (a.size() == 2) == (b.size() == 2) ? between : std::acos(0.0) - between;
}

Vec3 vec(const gp_Pnt& p) {
  return {p.X(), p.Y(), p.Z()};
}

}  // namespace

Result<Apart> apartOf(std::span<const Point3> a, std::span<const Point3> b) {
  if (a.empty() || b.empty()) {
    return fail(ErrorCode::badDimension, "a place without corners is nowhere");
  }
  return guarded("measuring", [&]() -> Result<Apart> {
    const BRepExtrema_DistShapeShape found(outlineShape(a), outlineShape(b));
    if (!found.IsDone() || found.NbSolution() < 1) {
      return fail(ErrorCode::libraryFailure, "the distance between two places was not found");
    }
    return Apart{found.Value(), vec(found.PointOnShape1(1)), vec(found.PointOnShape2(1)),
                 angleBetween(a, b)};
  });
}

}  // namespace dryfit::kernel

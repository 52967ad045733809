#include "export/drawing/sight_lines.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "kernel/tolerance.h"

namespace dryfit::exporting {
namespace {

using kernel::Mesh;
using kernel::Point3;
using kernel::Vec3;

/// How far along a line a triangle lies; none where the line misses it or runs along it.
std::optional<double> meetsTriangle(const std::array<Point3, 3>& corners, Point3 from, Vec3 along) {
  const Vec3 normal = (corners[1] - corners[0]).cross(corners[2] - corners[0]);
  const double slope = normal.dot(along);
  if (std::fabs(slope) <= kernel::kParallel * normal.norm()) return std::nullopt;
  const double far = normal.dot(corners[0] - from) / slope;
  if (far < 0) return std::nullopt;
  const Point3 at = from + along * far;
  for (std::size_t i = 0; i < 3; ++i) {
    const Vec3 side = corners[(i + 1) % 3] - corners[i];
    // On the edge counts as met, so that no line slips through between two triangles.
    if (side.cross(at - corners[i]).dot(normal) < -kernel::kSnap * side.norm() * normal.norm()) {
      return std::nullopt;
    }
  }
  return far;
}

}  // namespace

Result<SightLines> SightLines::of(std::span<const kernel::Solid> solids) {
  SightLines lines;
  std::vector<const kernel::Solid*> known;
  for (const kernel::Solid& solid : solids) {
    const auto same = std::ranges::find_if(
        known, [&](const kernel::Solid* other) { return other->isSameAs(solid); });
    lines.meshOf_.push_back(static_cast<std::size_t>(same - known.begin()));
    if (same != known.end()) continue;
    auto mesh = kernel::triangulate(solid);
    if (!mesh) return tl::unexpected(mesh.error());
    known.push_back(&solid);
    lines.meshes_.push_back(std::move(*mesh));
  }
  return lines;
}

std::optional<double> SightLines::meets(std::size_t solid, Point3 from, Vec3 along) const {
  const Mesh& mesh = meshes_[meshOf_[solid]];
  std::optional<double> nearest;
  for (const auto& [a, b, c] : mesh.triangles) {
    const auto corner = [&](int i) { return mesh.points[static_cast<std::size_t>(i)]; };
    const auto far = meetsTriangle({corner(a), corner(b), corner(c)}, from, along);
    if (far && (!nearest || *far < *nearest)) nearest = far;
  }
  return nearest;
}

}  // namespace dryfit::exporting

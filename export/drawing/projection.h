#pragma once

#include <optional>
#include <vector>

#include "export/drawing/sheet.h"
#include "kernel/hidden_lines.h"

namespace dryfit::exporting {

/// A picture of a solid before it is put on paper: lines in true mm of the view's plane.
struct Projection {
  kernel::Viewpoint eye;
  std::vector<kernel::ViewLine> lines;

  /// Box round all lines, true mm.
  [[nodiscard]] Box2 bounds() const;
  /// Where a point of the solid's space falls, true mm.
  [[nodiscard]] Point2 of(kernel::Point3 p) const;
  /// The rectangle in which a box of the solid's space falls.
  [[nodiscard]] Box2 of(const kernel::Box3& box) const;
};

/// The picture of some solids. Error: libraryFailure.
[[nodiscard]] Result<Projection> project(std::span<const kernel::Solid> solids,
                                         const kernel::Viewpoint& eye);

/// The picture of what a plane square to `axis` at `at` cuts of the solid: the outline of the cut
/// wood only. Errors: emptyResult where it cuts none, libraryFailure.
[[nodiscard]] Result<Projection> projectSection(const kernel::Solid& solid, int axis, double at,
                                                const kernel::Viewpoint& eye);

/// The part of a polyline inside a box, in pieces.
[[nodiscard]] std::vector<std::vector<Point2>> clipped(const std::vector<Point2>& line,
                                                       const Box2& box);

/// The lines on paper, at `scale` paper mm to a true mm; the solid's origin falls on (0, 0). Only
/// what lies in `window` (true mm) is shown.
[[nodiscard]] Ink inkOf(const Projection& view, double scale,
                        const std::optional<Box2>& window = std::nullopt);

/// Hatching at 45 degrees, `pitch` paper mm apart, of the region that the visible lines bound
/// (inside where an odd number of lines is crossed).
[[nodiscard]] Ink hatchingOf(const Projection& section, double scale,
                             const std::optional<Box2>& window = std::nullopt, double pitch = 2.0);

}  // namespace dryfit::exporting

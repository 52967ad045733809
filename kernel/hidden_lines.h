#pragma once

#include <span>
#include <vector>

#include "kernel/solid.h"

namespace dryfit::kernel {

/// Where the eye is: the drawing's right and up, in the solid's space, both of length 1 and at
/// right angles. The eye looks along right × up, reversed (so right × up points to the viewer).
struct Viewpoint {
  Vec3 right{1, 0, 0};
  Vec3 up{0, 0, 1};
};

/// One line or curve of a view, in mm of the drawing plane: x along `right`, y along `up`, measured
/// from the projection of the space's origin. Two points for a straight line, more for a curve.
struct ViewLine {
  std::vector<Point2> points;
  bool visible = true;
  friend bool operator==(const ViewLine&, const ViewLine&) = default;
};

/// The edges of the solids as seen in parallel projection, visible and hidden apart. Lines that lie
/// over each other are given once, visible before hidden, and collinear pieces that meet are one
/// line; pieces shorter than `kContact` are dropped. Tangent seams are left out. The same holds for
/// arcs of one circle or ellipse; any other curve is dropped only where it repeats another as a
/// whole. Chords stand at most 0.05 mm off their curve; a full round ends at its first point.
///
/// Visible lines come first; each group is sorted from left to right, then from the bottom up, and
/// so does each line run. Coordinates are rounded to 1e-9 mm, and the order of the solids does not
/// matter. May be called from several threads at once, also with the same solids.
/// Errors: badDimension for a skew viewpoint, libraryFailure.
[[nodiscard]] Result<std::vector<ViewLine>> hiddenLines(std::span<const Solid> solids,
                                                        const Viewpoint& view);

}  // namespace dryfit::kernel

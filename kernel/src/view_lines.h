#pragma once

#include <vector>

#include "kernel/hidden_lines.h"

namespace dryfit::kernel {

/// A straight piece of a view.
struct Segment {
  Point2 a, b;
  bool visible = true;
};

/// A piece of an ellipse or circle: centre + major·cos(t)·u + minor·sin(t)·v for t in [from, to],
/// where u is the x axis turned by `tilt` and v stands a quarter turn left of it. Radians.
/// A circle has tilt 0. REQUIRES: from < to <= from + 2π, major >= minor > 0, 0 <= tilt < π.
struct Arc {
  Point2 centre;
  double major = 0, minor = 0, tilt = 0;
  double from = 0, to = 0;
  bool visible = true;
  [[nodiscard]] Point2 at(double t) const;
};

/// Any other curve, sampled.
struct Sampled {
  std::vector<Point2> points;
  bool visible = true;
};

/// The pieces of a view as the geometry library gives them: in any order, over each other, broken.
struct RawView {
  std::vector<Segment> segments;
  std::vector<Arc> arcs;
  std::vector<Sampled> others;
};

/// Greatest distance of a drawn chord from its curve, mm.
inline constexpr double kChordError = 0.05;

/// The lines of the view under the promise of `hiddenLines`: each once, whole, visible before
/// hidden, none shorter than `kContact`; visible ones first, each group from left to right and
/// from the bottom up. Coordinates are rounded to 1e-9 mm, so that rounding cannot change the
/// order.
[[nodiscard]] std::vector<ViewLine> cleaned(const RawView& raw);

}  // namespace dryfit::kernel

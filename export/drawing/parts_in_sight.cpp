#include "export/drawing/parts_in_sight.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "export/drawing/feature_rows.h"
#include "export/drawing/projection.h"
#include "kernel/tolerance.h"

namespace dryfit::exporting {
namespace {

using joinery::PlacedPart;
using kernel::Box3;
using kernel::Vec3;

/// A part's picture: the rectangle in which it lies and how near to the eye it comes.
struct Shape {
  Box2 flat;
  double nearest = 0;
};

/// Wood as wide and high as the blank, without a hole: nothing behind it can be seen.
struct Screen {
  Box2 flat;
  double front = 0;  ///< its side toward the eye
};

/// The reach of a box along a direction, greatest value.
double reach(const Box3& box, Vec3 way) {
  double most = 0;
  for (int axis = 0; axis < 3; ++axis) {
    most += way[axis] * (way[axis] > 0 ? box.max[axis] : box.min[axis]);
  }
  return most;
}

/// The part's own axis along which the eye looks.
std::optional<int> axisAlong(const PlacedPart& part, Vec3 toEye) {
  for (int axis = 0; axis < 3; ++axis) {
    if (std::fabs(std::fabs(part.frame.axis(axis).dot(toEye)) - 1) < kernel::kRounding) return axis;
  }
  return std::nullopt;
}

/// The slice of a part nearest to the eye that no cut touches.
std::optional<Screen> screenOf(const PlacedPart& part, const kernel::Viewpoint& eye) {
  const Vec3 toEye = eye.right.cross(eye.up);
  const std::optional<int> axis = axisAlong(part, toEye);
  if (!axis || !part.tapers.empty() || !part.frame.isSquare()) return std::nullopt;
  const bool farIsNear = part.frame.axis(*axis).dot(toEye) > 0;
  // Depth from the side toward the eye.
  const double size = part.size[*axis];
  std::vector<std::pair<double, double>> cuts;
  for (const joinery::Feature& f : part.features) {
    if (standsOut(f.purpose)) continue;
    const double low = f.extent.min[*axis];
    const double high = f.extent.max[*axis];
    cuts.emplace_back(farIsNear ? size - high : low, farIsNear ? size - low : high);
  }
  std::ranges::sort(cuts);
  double depth = 0;
  for (const auto& [from, to] : cuts) {
    if (from > depth + kernel::kContact) break;
    depth = std::max(depth, to);
  }
  if (depth >= size - kernel::kContact) return std::nullopt;
  const Box3 box = kernel::boundsOf(part.frame, part.blank());
  return Screen{Projection{eye, {}}.of(box), reach(box, toEye) - depth};
}

}  // namespace

std::vector<bool> partsInSight(const joinery::Piece& piece, const kernel::Viewpoint& eye,
                               const std::vector<bool>& away) {
  const Vec3 toEye = eye.right.cross(eye.up);
  std::vector<std::optional<Screen>> screens;
  for (std::size_t i = 0; i < piece.parts.size(); ++i) {
    screens.push_back(away[i] ? std::nullopt : screenOf(piece.parts[i], eye));
  }
  std::vector<bool> inSight;
  for (std::size_t i = 0; i < piece.parts.size(); ++i) {
    const PlacedPart& part = piece.parts[i];
    const Box3 box = kernel::boundsOf(part.frame, part.overall());
    const Shape shape{Projection{eye, {}}.of(box), reach(box, toEye)};
    const bool hidden = std::ranges::any_of(screens, [&](const std::optional<Screen>& screen) {
      return screen && &screen != &screens[i] && screen->flat.contains(shape.flat, kernel::kSnap) &&
             shape.nearest < screen->front + kernel::kContact;
    });
    inSight.push_back(!away[i] && !hidden);
  }
  return inSight;
}

}  // namespace dryfit::exporting

#pragma once

#include <array>
#include <optional>

#include "kernel/geometry.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// Corners of a frame as its maker looks at it, clockwise from the top left.
enum class Corner { topLeft, topRight, bottomRight, bottomLeft };

/// What was read off a frame put together dry, mm.
struct FrameReadings {
  double falling = 0;  ///< diagonal from the top left to the bottom right
  double rising = 0;   ///< diagonal from the bottom left to the top right
  double top = 0, bottom = 0;
  double left = 0, right = 0;
  std::array<std::optional<double>, 4> corners;  ///< degrees, by Corner; where they were read
};

/// The frame that fits the readings best.
struct FrameShape {
  std::array<kernel::Point2, 4> corner;  ///< by Corner; the bottom left is (0, 0), bottom along x
  std::array<double, 4> angle{};         ///< degrees, by Corner
  double top = 0, bottom = 0, left = 0, right = 0, falling = 0, rising = 0;  ///< mm
  /// How far the top has gone to the right over the height; < 0: to the left. Sides that differ in
  /// length do not count: it is what is left of the lean when both sides are taken together.
  double rack = 0;
  double rackAngle = 0;  ///< degrees, same sign
  /// By how much the reading that fits worst differs from this shape, mm. Six lengths are one more
  /// than a frame has, so they can be held against each other.
  double disagreement = 0;
  bool readingsAgree = true;  ///< the disagreement is no more than the rounding of a tape explains

  [[nodiscard]] double moreAtTop() const { return top - bottom; }
  [[nodiscard]] double moreAtLeft() const { return left - right; }
};

/// The least-squares quadrilateral of the readings: four points in a plane have five numbers once
/// the first is at (0, 0) and the second on the x axis, and six lengths are read. Errors:
/// badMeasurement (a length that is no size, or lengths that close no frame).
[[nodiscard]] Result<FrameShape> frameFrom(const FrameReadings& readings);

}  // namespace dryfit::joinery

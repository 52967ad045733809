#pragma once

#include <optional>
#include <string_view>

#include "kernel/geometry.h"

namespace dryfit::joinery {

/// An axis of the piece as it stands: x to the right, y from front to back, z up.
enum class Axis { x, y, z };

/// A face of a part as the piece stands, before any turning out of square.
enum class Face { left, right, front, back, bottom, top };

[[nodiscard]] constexpr Axis axisOf(Face f) {
  return f == Face::left || f == Face::right   ? Axis::x
         : f == Face::front || f == Face::back ? Axis::y
                                               : Axis::z;
}
/// True for right, back and top: the faces with the greater coordinate.
[[nodiscard]] constexpr bool isFarFace(Face f) {
  return f == Face::right || f == Face::back || f == Face::top;
}
[[nodiscard]] constexpr Face faceOf(Axis axis, bool far) {
  return axis == Axis::x   ? (far ? Face::right : Face::left)
         : axis == Axis::y ? (far ? Face::back : Face::front)
                           : (far ? Face::top : Face::bottom);
}
[[nodiscard]] std::string_view nameOf(Face f);
[[nodiscard]] std::optional<Face> faceNamed(std::string_view name);

/// An axis of a part's own frame, along its length, width or thickness.
enum class PartAxis { length, width, thickness };

/// By which its coordinates are numbered: 0, 1 and 2.
[[nodiscard]] constexpr int indexOf(PartAxis axis) {
  return static_cast<int>(axis);
}
/// REQUIRES: index is 0, 1 or 2.
[[nodiscard]] constexpr PartAxis partAxis(int index) {
  return static_cast<PartAxis>(index);
}
/// "length", "width", "thickness".
[[nodiscard]] std::string_view nameOf(PartAxis axis);

/// A face of a part in the part's own frame: which of its axes it is square to, and whether it is
/// the one with the greater coordinate.
struct LocalFace {
  int axis = 0;  ///< numbered as PartAxis is, to count on with
  bool far = false;
  friend constexpr bool operator==(LocalFace, LocalFace) = default;
  [[nodiscard]] constexpr bool squareTo(PartAxis a) const { return axis == indexOf(a); }
  /// +1 or -1: the outward direction along `axis`.
  [[nodiscard]] constexpr int sign() const { return far ? 1 : -1; }
  [[nodiscard]] constexpr kernel::Vec3 outward() const {
    kernel::Vec3 v;
    v.set(axis, sign());
    return v;
  }
};

}  // namespace dryfit::joinery

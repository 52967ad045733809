#pragma once

#include <array>
#include <cmath>
#include <compare>

#include "kernel/units.h"

namespace dryfit::kernel {

/// A direction or displacement in space; components in mm where it is a displacement.
struct Vec3 {
  double x = 0, y = 0, z = 0;
  [[nodiscard]] constexpr double operator[](int axis) const {
    return axis == 0 ? x : axis == 1 ? y : z;
  }
  constexpr void set(int axis, double value) { (axis == 0 ? x : axis == 1 ? y : z) = value; }
  friend constexpr bool operator==(const Vec3&, const Vec3&) = default;
  friend constexpr Vec3 operator+(Vec3 a, Vec3 b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
  friend constexpr Vec3 operator-(Vec3 a, Vec3 b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
  friend constexpr Vec3 operator-(Vec3 a) { return {-a.x, -a.y, -a.z}; }
  friend constexpr Vec3 operator*(Vec3 a, double k) { return {a.x * k, a.y * k, a.z * k}; }
  [[nodiscard]] constexpr double dot(Vec3 b) const { return x * b.x + y * b.y + z * b.z; }
  [[nodiscard]] constexpr Vec3 cross(Vec3 b) const {
    return {y * b.z - z * b.y, z * b.x - x * b.z, x * b.y - y * b.x};
  }
  [[nodiscard]] double norm() const { return std::sqrt(dot(*this)); }
  /// The same direction with length 1. REQUIRES: norm() > 0.
  [[nodiscard]] Vec3 unit() const { return *this * (1 / norm()); }
};

/// A point in space, in mm.
struct Point3 {
  double x = 0, y = 0, z = 0;
  [[nodiscard]] constexpr double operator[](int axis) const {
    return axis == 0 ? x : axis == 1 ? y : z;
  }
  constexpr void set(int axis, double value) { (axis == 0 ? x : axis == 1 ? y : z) = value; }
  friend constexpr bool operator==(const Point3&, const Point3&) = default;
  friend constexpr Vec3 operator-(Point3 a, Point3 b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
  friend constexpr Point3 operator+(Point3 p, Vec3 v) { return {p.x + v.x, p.y + v.y, p.z + v.z}; }
  friend constexpr Point3 operator-(Point3 p, Vec3 v) { return {p.x - v.x, p.y - v.y, p.z - v.z}; }
};

/// A point in a plane, in mm.
struct Point2 {
  double x = 0, y = 0;
  friend constexpr bool operator==(const Point2&, const Point2&) = default;
};

/// An axis-aligned box, in mm, of whatever frame it is stated in. Empty when any min >= max.
struct Box3 {
  Point3 min, max;
  friend constexpr bool operator==(const Box3&, const Box3&) = default;
  [[nodiscard]] constexpr Vec3 size() const { return max - min; }
  [[nodiscard]] constexpr Point3 centre() const {
    return {(min.x + max.x) / 2, (min.y + max.y) / 2, (min.z + max.z) / 2};
  }
  [[nodiscard]] constexpr bool empty() const {
    return min.x >= max.x || min.y >= max.y || min.z >= max.z;
  }
  /// 0 for an empty box.
  [[nodiscard]] constexpr double volume() const {
    const Vec3 s = size();
    return empty() ? 0 : s.x * s.y * s.z;
  }
  /// The shared box; empty() where the two do not share space.
  [[nodiscard]] Box3 common(const Box3& b) const {
    return {{std::fmax(min.x, b.min.x), std::fmax(min.y, b.min.y), std::fmax(min.z, b.min.z)},
            {std::fmin(max.x, b.max.x), std::fmin(max.y, b.max.y), std::fmin(max.z, b.max.z)}};
  }
  /// The smallest box round both.
  [[nodiscard]] Box3 united(const Box3& b) const {
    return {{std::fmin(min.x, b.min.x), std::fmin(min.y, b.min.y), std::fmin(min.z, b.min.z)},
            {std::fmax(max.x, b.max.x), std::fmax(max.y, b.max.y), std::fmax(max.z, b.max.z)}};
  }
  /// Grown by `d` mm on all six sides (shrunk where d < 0).
  [[nodiscard]] constexpr Box3 grown(double d) const {
    return {{min.x - d, min.y - d, min.z - d}, {max.x + d, max.y + d, max.z + d}};
  }
};

/// A rigid placement: maps local coordinates to the coordinates of the space it stands in.
/// Columns `x`, `y`, `z` are orthonormal and right-handed; a mirror is not a Frame.
struct Frame {
  Point3 origin{0, 0, 0};
  Vec3 x{1, 0, 0}, y{0, 1, 0}, z{0, 0, 1};

  friend constexpr bool operator==(const Frame&, const Frame&) = default;
  [[nodiscard]] constexpr Vec3 axis(int i) const { return i == 0 ? x : i == 1 ? y : z; }
  /// Local to outer.
  [[nodiscard]] constexpr Point3 place(Point3 p) const {
    return origin + x * p.x + y * p.y + z * p.z;
  }
  [[nodiscard]] constexpr Vec3 turn(Vec3 v) const { return x * v.x + y * v.y + z * v.z; }
  /// Outer to local.
  [[nodiscard]] constexpr Point3 local(Point3 p) const {
    const Vec3 d = p - origin;
    return {d.dot(x), d.dot(y), d.dot(z)};
  }
  [[nodiscard]] constexpr Vec3 localDirection(Vec3 v) const {
    return {v.dot(x), v.dot(y), v.dot(z)};
  }
  /// The frame that first applies `inner`, then this one.
  [[nodiscard]] constexpr Frame after(const Frame& inner) const {
    return {place(inner.origin), turn(inner.x), turn(inner.y), turn(inner.z)};
  }
  [[nodiscard]] constexpr Frame inverse() const {
    const Vec3 o{origin.x, origin.y, origin.z};
    return {{-o.dot(x), -o.dot(y), -o.dot(z)}, {x.x, y.x, z.x}, {x.y, y.y, z.y}, {x.z, y.z, z.z}};
  }
  /// Turned by `angle` (right-hand rule) about the line through `at` along `direction`.
  /// REQUIRES: direction has length 1.
  [[nodiscard]] static Frame rotation(Point3 at, Vec3 direction, Angle angle);
  /// True when each axis is along some outer axis (either way) within 1e-12.
  [[nodiscard]] bool isSquare() const;
};

/// The box round a placed box. Exact to rounding when `frame.isSquare()`.
[[nodiscard]] Box3 boundsOf(const Frame& frame, const Box3& box);

}  // namespace dryfit::kernel

#pragma once

#include <cmath>
#include <gp_Ax2.hxx>
#include <gp_Ax3.hxx>
#include <gp_Dir.hxx>
#include <gp_Pnt.hxx>
#include <gp_Trsf.hxx>
#include <gp_Vec.hxx>

#include "kernel/geometry.h"
#include "kernel/tolerance.h"

namespace dryfit::kernel {

[[nodiscard]] inline gp_Pnt toLibrary(Point3 p) {
  return {p.x, p.y, p.z};
}
[[nodiscard]] inline gp_Dir toDirection(Vec3 v) {
  return {v.x, v.y, v.z};
}
[[nodiscard]] inline Point3 fromLibrary(const gp_Pnt& p) {
  return {p.X(), p.Y(), p.Z()};
}
[[nodiscard]] inline Vec3 fromLibrary(const gp_Dir& d) {
  return {d.X(), d.Y(), d.Z()};
}

[[nodiscard]] inline gp_Ax3 toAxes(const Frame& f) {
  return {toLibrary(f.origin), toDirection(f.z), toDirection(f.x)};
}

/// The rigid motion that takes the standard axes to `frame`. Built from axes and not from a
/// matrix, because the scale factor the library derives from a matrix may be off 1 by rounding,
/// which it then refuses in a location.
[[nodiscard]] inline gp_Trsf toMotion(const Frame& frame) {
  gp_Trsf motion;
  motion.SetDisplacement(gp_Ax3(gp::Origin(), gp::DZ(), gp::DX()), toAxes(frame));
  return motion;
}

/// Where the seam of a round face goes, from which the library counts round it: at right angles to
/// `axis`, of length 1, and the same for either sense of it. The library cannot combine two round
/// faces that coincide while their seams lie apart; it gives an invalid solid. REQUIRES: `axis` has
/// length 1.
[[nodiscard]] inline Vec3 seamSide(Vec3 axis) {
  const double first = std::fabs(axis.x) > kUnit   ? axis.x
                       : std::fabs(axis.y) > kUnit ? axis.y
                                                   : axis.z;
  const Vec3 forward = first < 0 ? -axis : axis;
  // Not at 45°, where joiners' axes lie and rounding would decide.
  const bool steep = std::fabs(axis.z) > 0.9;
  return forward.cross(steep ? Vec3{1, 0, 0} : Vec3{0, 0, 1}).unit();
}

[[nodiscard]] inline bool isFinite(Point3 p) {
  return std::isfinite(p.x) && std::isfinite(p.y) && std::isfinite(p.z);
}
[[nodiscard]] inline bool isFinite(Vec3 v) {
  return std::isfinite(v.x) && std::isfinite(v.y) && std::isfinite(v.z);
}
/// Of length 1, to rounding. The library throws at directions that have none.
[[nodiscard]] inline bool isUnit(Vec3 v) {
  return std::fabs(v.dot(v) - 1) < kUnit;  // false where a value is not a number
}
/// What every Frame must be.
[[nodiscard]] inline bool isRigid(const Frame& f) {
  return isFinite(f.origin) && isUnit(f.x) && isUnit(f.y) && isUnit(f.z) &&
         (f.x.cross(f.y) - f.z).norm() < kUnit;
}

}  // namespace dryfit::kernel

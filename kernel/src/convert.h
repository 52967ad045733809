#pragma once

#include <cmath>
#include <gp_Ax2.hxx>
#include <gp_Ax3.hxx>
#include <gp_Dir.hxx>
#include <gp_Pnt.hxx>
#include <gp_Trsf.hxx>
#include <gp_Vec.hxx>

#include "kernel/geometry.h"

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

[[nodiscard]] inline bool isFinite(Point3 p) {
  return std::isfinite(p.x) && std::isfinite(p.y) && std::isfinite(p.z);
}
[[nodiscard]] inline bool isFinite(Vec3 v) {
  return std::isfinite(v.x) && std::isfinite(v.y) && std::isfinite(v.z);
}

}  // namespace dryfit::kernel

#include "kernel/geometry.h"

#include "kernel/tolerance.h"

namespace dryfit::kernel {

Frame Frame::rotation(Point3 at, Vec3 k, Angle angle) {
  const double c = std::cos(angle.radians());
  const double s = std::sin(angle.radians());
  // Rodrigues' formula, one column at a time.
  const auto turned = [&](Vec3 v) { return v * c + k.cross(v) * s + k * (k.dot(v) * (1 - c)); };
  Frame f{{}, turned({1, 0, 0}), turned({0, 1, 0}), turned({0, 0, 1})};
  f.origin = at - f.turn(at - Point3{});
  return f;
}

bool Frame::isSquare() const {
  for (int i = 0; i < 3; ++i) {
    int along = 0;
    for (int j = 0; j < 3; ++j) {
      const double component = std::fabs(axis(i)[j]);
      if (component > kAlongAxis && std::fabs(component - 1) > kAlongAxis) return false;
      if (component > 0.5) ++along;
    }
    if (along != 1) return false;
  }
  return true;
}

Box3 boundsOf(const Frame& frame, const Box3& box) {
  const Point3 centre = frame.place(box.centre());
  const Vec3 half = box.size() * 0.5;
  Vec3 reach;
  for (int i = 0; i < 3; ++i) {
    double sum = 0;
    for (int j = 0; j < 3; ++j) sum += std::fabs(frame.axis(j)[i]) * half[j];
    reach.set(i, sum);
  }
  return {centre - reach, centre + reach};
}

}  // namespace dryfit::kernel

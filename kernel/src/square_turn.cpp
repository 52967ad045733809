#include "kernel/src/square_turn.h"

#include <cmath>

namespace dryfit::kernel {

Frame snapped(const Frame& frame) {
  if (!frame.isSquare()) return frame;
  const auto whole = [](Vec3 v) -> Vec3 {
    return {std::round(v.x), std::round(v.y), std::round(v.z)};
  };
  return {frame.origin, whole(frame.x), whole(frame.y), whole(frame.z)};
}

Box3 cornersPlaced(const Frame& frame, const Box3& box) {
  const Point3 a = frame.place(box.min);
  const Point3 b = frame.place(box.max);
  return Box3{a, a}.united({b, b});
}

}  // namespace dryfit::kernel

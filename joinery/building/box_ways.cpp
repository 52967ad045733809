#include "joinery/building/box_ways.h"

#include <cmath>

namespace dryfit::joinery {

using kernel::Box3;
using kernel::Vec3;

double least(const Box3& box, Vec3 way) {
  double sum = 0;
  for (int i = 0; i < 3; ++i) sum += way[i] * (way[i] > 0 ? box.min[i] : box.max[i]);
  return sum;
}
double most(const Box3& box, Vec3 way) {
  return -least(box, -way);
}

Box3 moved(Box3 box, Vec3 by) {
  box.min = box.min + by;
  box.max = box.max + by;
  return box;
}

bool overlapping(const Box3& a, const Box3& b) {
  return !a.common(b).grown(-kTouch / 2).empty();
}

Vec3 awayFrom(const Box3& from, const Box3& box) {
  int beside = 0;
  double most = -1;
  double sign = 1;
  for (int i = 0; i < 3; ++i) {
    const double gap = (box.min[i] + box.max[i] - from.min[i] - from.max[i]) / 2;
    const double reach = (box.size()[i] + from.size()[i]) / 2;
    if (std::abs(gap) / reach <= most) continue;
    most = std::abs(gap) / reach;
    beside = i;
    sign = gap < 0 ? -1 : 1;
  }
  Vec3 way;
  way.set(beside, sign);
  return way;
}

bool sameLine(Vec3 a, Vec3 b) {
  return std::abs(std::abs(a.dot(b)) - a.norm() * b.norm()) < kSameWay;
}

bool inLine(const Box3& a, const Box3& b, Vec3 way) {
  for (int i = 0; i < 3; ++i) {
    if (std::abs(way[i]) > kSameWay) continue;
    if (a.max[i] <= b.min[i] + kTouch || b.max[i] <= a.min[i] + kTouch) return false;
  }
  return true;
}

}  // namespace dryfit::joinery

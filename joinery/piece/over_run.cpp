#include "joinery/piece/over_run.h"

#include <cmath>

#include "kernel/tolerance.h"

namespace dryfit::joinery {

using kernel::Box3;

Box3 overRun(Box3 box, const Box3& wood) {
  for (int axis = 0; axis < 3; ++axis) {
    if (std::fabs(box.min[axis] - wood.min[axis]) <= kernel::kContact) {
      box.min.set(axis, wood.min[axis] - kOverRun);
    }
    if (std::fabs(box.max[axis] - wood.max[axis]) <= kernel::kContact) {
      box.max.set(axis, wood.max[axis] + kOverRun);
    }
  }
  return box;
}

bool runsOut(const Box3& extent, const Box3& blank, int axis) {
  return extent.min[axis] <= blank.min[axis] + kernel::kContact &&
         extent.max[axis] >= blank.max[axis] - kernel::kContact;
}

}  // namespace dryfit::joinery

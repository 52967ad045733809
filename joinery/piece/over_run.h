#pragma once

#include "kernel/geometry.h"

namespace dryfit::joinery {

/// How far a cut runs past a face it comes out of, mm: no skin is left, and no wood is touched.
inline constexpr double kOverRun = 1;

/// `box` carried past every face of `wood` that it ends on.
[[nodiscard]] kernel::Box3 overRun(kernel::Box3 box, const kernel::Box3& wood);

/// True when a cut with this extent runs out at both ends of `blank` along `axis`.
[[nodiscard]] bool runsOut(const kernel::Box3& extent, const kernel::Box3& blank, int axis);

}  // namespace dryfit::joinery

#include "joinery/base/size_limits.h"

#include <fmt/format.h>

#include <cmath>

#include "kernel/tolerance.h"

namespace dryfit::joinery {

Result<void> checkSize(double mm) {
  if (mm > kLeastSize && mm <= kernel::kLargest) return {};
  return fail(
      ErrorCode::badDimension, fmt::format("the size is {:.6g} mm", mm), {},
      fmt::format("sizes must be between {} mm and {} m", kLeastSize, kernel::kLargest / 1000));
}

Result<void> checkCoordinate(double mm) {
  if (std::fabs(mm) <= kernel::kLargest) return {};
  return fail(
      ErrorCode::badDimension, fmt::format("this is at {:.6g} mm", mm), {},
      fmt::format("nothing may be farther than {} m from the origin", kernel::kLargest / 1000));
}

}  // namespace dryfit::joinery

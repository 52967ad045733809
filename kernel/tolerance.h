#pragma once

namespace dryfit::kernel {

/// The one distance, in mm, below which two faces count as touching: ten times finer than paper is
/// thin, a hundred times coarser than the rounding of `double` at furniture size.
inline constexpr double kContact = 1e-4;

/// Volume in mm³ below which a shared volume counts as touching, not as interference: a 1 m × 1 m
/// contact at a tenth of `kContact` deep would be 10 mm³; a sliver this small cannot be sawn.
inline constexpr double kSliverVolume = 1e-2;

/// Largest size of anything in the workshop, in mm. Greater numbers are taken for typing errors.
inline constexpr double kLargest = 100'000;

}  // namespace dryfit::kernel

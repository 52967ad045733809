#pragma once

#include <span>
#include <vector>

#include "kernel/geometry.h"

namespace dryfit::kernel {

/// The shared boxes of two sets of boxes; within each set no two boxes share space. Both sets in
/// ascending order of min.x. Pieces nowhere as thick as `kContact` are left out: parts that touch
/// share such films by rounding. Time: sorting, and the pairs that meet along x.
[[nodiscard]] std::vector<Box3> sharedBoxes(std::span<const Box3> a, std::span<const Box3> b);

/// Least distance between two boxes, mm; 0 where they touch or overlap.
[[nodiscard]] double gapBetween(const Box3& a, const Box3& b);

/// Least distance between two sets of boxes, mm.
[[nodiscard]] double gapBetween(std::span<const Box3> a, std::span<const Box3> b);

}  // namespace dryfit::kernel

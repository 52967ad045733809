#pragma once

#include <vector>

#include "joinery/fit/dry_fit.h"

namespace dryfit::joinery {

/// The findings of `after` that are not there in `before`, in their order: of another kind,
/// severity, part or joint. One that has only got worse or better is the same. Both are states of
/// one design.
[[nodiscard]] std::vector<Finding> newFindings(const DryFit& before, const DryFit& after);

}  // namespace dryfit::joinery

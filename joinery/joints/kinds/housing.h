#pragma once

#include "joinery/joints/joint_kind.h"

namespace dryfit::joinery {

/// The two housings: role 0 is the shelf, role 1 the side. A stopped housing ends short of one
/// edge.
[[nodiscard]] Result<JointCut> cutHousing(const JointContext& context, bool stopped);

}  // namespace dryfit::joinery

#pragma once

#include "joinery/joints/joint_kind.h"

namespace dryfit::joinery {

/// What butt and edge joint share: two faces that touch, nothing cut. Role 0 is the first mate.
[[nodiscard]] Result<JointCut> meetByFaces(const JointContext& context, bool glued);

}  // namespace dryfit::joinery

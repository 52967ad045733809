#pragma once

#include "joinery/joints/joint_kind.h"

namespace dryfit::joinery {

enum class TenonStyle { blind, through, haunched };

/// The three mortise-and-tenon kinds: role 0 carries the tenon, role 1 the mortise.
[[nodiscard]] Result<JointCut> cutMortiseTenon(const JointContext& context, TenonStyle style);

}  // namespace dryfit::joinery

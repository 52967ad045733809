#pragma once

#include <memory>
#include <span>
#include <string_view>

#include "joinery/joints/joint_kind.h"

namespace dryfit::joinery {

/// All kinds, in the order of the table.
[[nodiscard]] std::span<const std::unique_ptr<const JointKind>> jointKinds();
/// The kind with this name, or null.
[[nodiscard]] const JointKind* jointKindNamed(std::string_view name);

}  // namespace dryfit::joinery

#pragma once

#include <optional>
#include <string_view>

#include "joinery/piece/piece.h"

namespace dryfit::joinery {

/// What the rules would make a number of a joint were it left to them, the joint's other numbers as
/// they are; none where the joint could not be cut then, or where no rule speaks of it.
[[nodiscard]] std::optional<JointValue> valueByRule(const Piece& piece, JointId joint,
                                                    std::string_view parameter);

}  // namespace dryfit::joinery

#pragma once

#include <vector>

#include "joinery/joints/joint_kind.h"

namespace dryfit::joinery {

/// The panel joints of a part, in the order of the model: all that a joint may read of its
/// neighbours. Empty without a table.
[[nodiscard]] std::vector<JointId> panelJointsAt(const JointContext& context, PartId part);

/// The grooves that panels make in a part, in the part's frame, so that tenons keep clear of them
/// or stand in line with them. Empty without a table. Panel joints that fail are left out: they
/// report their own error.
[[nodiscard]] std::vector<Feature> panelGroovesIn(const JointContext& context, PartId part);

}  // namespace dryfit::joinery

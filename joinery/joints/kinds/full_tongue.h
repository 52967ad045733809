#pragma once

#include "joinery/joints/insert.h"
#include "joinery/joints/joint_kind.h"
#include "joinery/joints/joint_numbers.h"

namespace dryfit::joinery {

/// What stands on the whole width of an edge or end, in a groove: a tongue, or a stub tenon.
struct FullTongue {
  Insert tongue;
  Insert room;     ///< that the groove gives it
  double fit = 0;  ///< play across the cheeks, mm
  std::optional<SharedPlay> sharedPlay;
};

/// Both halves from their sizes, mm. `nominal`: across the thickness, the groove; `length`: from
/// the shoulder; `clearance`: how much deeper the groove is. Reads the number "fit". Errors:
/// jointLeavesNothing, matesAskew.
[[nodiscard]] Result<FullTongue> fullTongue(const Mating& mating, Stretch nominal, double length,
                                            double clearance, JointNumbers& numbers);

/// A glued joint of the two: the tongue as `purpose`, its groove as the last feature.
[[nodiscard]] JointCut cutFullTongue(const JointContext& context, const Mating& mating,
                                     const FullTongue& halves, Purpose purpose,
                                     const Openings& openings);

}  // namespace dryfit::joinery

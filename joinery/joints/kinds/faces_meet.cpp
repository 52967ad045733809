#include "joinery/joints/kinds/faces_meet.h"

#include "joinery/joints/joint_numbers.h"

namespace dryfit::joinery {

Result<JointCut> meetByFaces(const JointContext& context, bool glued) {
  const auto mating = Mating::of(context.mate(0), context.mate(1), faceWord(context, "face"));
  if (!mating) return tl::unexpected(mating.error());
  JointCut cut;
  cut.joint = placedJoint(context, *mating, FitClass::none, 0);
  // Faces that are not parallel touch along a line at best: the open side is the gap.
  cut.joint.gap = mating->reachOf({mating->area(0), mating->area(1), mating->area(2)}).hi;
  cut.joint.glued = glued;
  return cut;
}

}  // namespace dryfit::joinery

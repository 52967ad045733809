#include "joinery/checks/all.h"

#include "joinery/joints/joint_kind.h"
#include "joinery/joints/joint_kinds.h"

namespace dryfit::joinery::checking {

Result<void> jointKinds(const CheckInput& input, std::vector<Finding>& findings) {
  for (const PlacedJoint& joint : input.piece.joints) {
    if (joint.notCut) continue;
    const JointKind* kind = jointKindNamed(input.piece.joint(joint.id).kind);
    if (kind != nullptr) kind->check(input.piece, joint, findings);
  }
  return {};
}

}  // namespace dryfit::joinery::checking

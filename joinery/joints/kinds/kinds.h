#pragma once

#include <memory>
#include <vector>

#include "joinery/joints/joint_kind.h"

namespace dryfit::joinery {

// One maker a kind. Each is defined in the file that bears the kind's name.
[[nodiscard]] std::unique_ptr<const JointKind> makeBlindMortiseTenon();
[[nodiscard]] std::unique_ptr<const JointKind> makeThroughMortiseTenon();
[[nodiscard]] std::unique_ptr<const JointKind> makeHaunchedMortiseTenon();
[[nodiscard]] std::unique_ptr<const JointKind> makeStubTenonGroove();
[[nodiscard]] std::unique_ptr<const JointKind> makePanelGroove();
[[nodiscard]] std::unique_ptr<const JointKind> makeThroughHousing();
[[nodiscard]] std::unique_ptr<const JointKind> makeStoppedHousing();
[[nodiscard]] std::unique_ptr<const JointKind> makeRebate();
[[nodiscard]] std::unique_ptr<const JointKind> makeHalfLap();
[[nodiscard]] std::unique_ptr<const JointKind> makeDowels();
[[nodiscard]] std::unique_ptr<const JointKind> makeTongueGroove();
[[nodiscard]] std::unique_ptr<const JointKind> makeEdgeJoint();
[[nodiscard]] std::unique_ptr<const JointKind> makeButt();

}  // namespace dryfit::joinery

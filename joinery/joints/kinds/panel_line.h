#pragma once

#include <optional>

#include "joinery/joints/insert.h"
#include "joinery/joints/joint_kind.h"

namespace dryfit::joinery {

/// A panel's groove as what goes into the grooved part (role 1) meets it.
struct PanelLine {
  Stretch across;    ///< of the thickness of what goes in
  double depth = 0;  ///< from the face of the grooved part
};

/// The panel groove in the face that the first mate meets, where one runs along the joint within
/// the first mate's thickness.
[[nodiscard]] std::optional<PanelLine> panelLine(const JointContext& context, const Mating& mating);

}  // namespace dryfit::joinery

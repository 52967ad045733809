#pragma once

#include <vector>

#include "joinery/joints/joint_kind.h"
#include "joinery/joints/joint_table.h"

namespace dryfit::joinery {

/// What every joint of one state was cut from, and what came of it. By JointId.
struct CutMemory {
  std::vector<JointRecord> records;
  std::vector<JointCut> cuts;

  /// True where the joint with this number was cut from the same.
  [[nodiscard]] bool knows(std::size_t joint, const JointRecord& record) const {
    return joint < cuts.size() && records[joint] == record;
  }
};

}  // namespace dryfit::joinery

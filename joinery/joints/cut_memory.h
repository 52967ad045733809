#pragma once

#include <string>
#include <utility>
#include <vector>

#include "joinery/joints/joint_kind.h"
#include "joinery/joints/joint_table.h"
#include "joinery/piece/piece.h"

namespace dryfit::joinery {

/// All that cutting one joint can read, but for the panel joints at its mates.
struct JointRecord {
  const JointKind* kind = nullptr;
  JointId joint;
  std::vector<std::vector<PartId>> roles;
  std::vector<PlacedPart> mates;   ///< as bare blanks, in the order of the roles
  std::vector<std::string> names;  ///< of the mates, for errors
  std::vector<JointValue> given;
  std::vector<std::pair<std::string, std::string>> words;
  friend bool operator==(const JointRecord&, const JointRecord&) = default;
};

/// What every joint of one state was cut from, and what came of it. By JointId.
struct CutMemory {
  std::vector<JointRecord> records;
  std::vector<std::vector<JointId>> panels;  ///< panel joints that the joint keeps clear of
  std::vector<JointCut> cuts;
};

/// The records of all joints of a table; `cuts` is left empty.
[[nodiscard]] CutMemory recordsOf(const Piece& piece, const JointTable& table);
/// Which joints were cut from the same in `earlier`.
[[nodiscard]] std::vector<bool> unchanged(const CutMemory& now, const CutMemory& earlier);

}  // namespace dryfit::joinery

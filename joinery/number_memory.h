#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "joinery/expression_cache.h"
#include "joinery/joint_kind.h"
#include "joinery/joint_table.h"
#include "joinery/piece.h"
#include "joinery/size_graph.h"

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

/// What `evaluate` keeps of the last state that it could work out, so that the next state takes
/// over each number and each joint whose inputs are equal. It is only ever asked by content, so a
/// memory of any other model, or of a state long gone, does no harm.
struct NumberMemory {
  ExpressionCache expressions;
  std::optional<SizeGraph> sizes;
  std::vector<double> values;  ///< numbers of `sizes`
  CutMemory cut;

  // Work of the last call.
  int numbersWorkedOut = 0;
  int jointsCut = 0;
};

}  // namespace dryfit::joinery

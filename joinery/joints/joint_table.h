#pragma once

#include <vector>

#include "joinery/formula/expression_cache.h"
#include "joinery/joints/joint_kind.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// A joint's kind and all that it is cut from.
struct JointRecord {
  const JointKind* kind = nullptr;
  JointContext context;
  friend bool operator==(const JointRecord&, const JointRecord&) = default;
};

/// All joints of a piece whose parts are placed, by JointId, with their mates found and their
/// parameters worked out; no mate has grooves yet. Errors: unknownName (kind, role, part,
/// parameter), roleUnfit (a role left empty or filled twice), joinedToItself (one part in two
/// roles), badJoint (a word that is not allowed), badExpression; `where` is "joints.NAME" or
/// "joints.NAME.KEY".
[[nodiscard]] Result<std::vector<JointRecord>> jointTable(const Piece& piece,
                                                          ExpressionCache& expressions);

/// What one joint of a piece with all joints cut was cut from, the grooves of panels included. To
/// try it anew with other numbers, or as another kind. Errors: as jointTable.
[[nodiscard]] Result<JointRecord> jointRecord(const Piece& piece, JointId id);

}  // namespace dryfit::joinery

#pragma once

#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "joinery/formula/expression_cache.h"
#include "joinery/joints/joint_kind.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// All joints of a piece with their mates found and their parameters worked out, before any of them
/// is cut. A joint that must keep clear of its neighbours looks them up here.
class JointTable {
 public:
  /// The piece must outlive the table. Errors: unknownName (kind, role, part, parameter), badJoint
  /// (a role left empty or filled twice, one part in two roles, a word that is not allowed),
  /// badExpression; `where` is "joints.NAME" or "joints.NAME.KEY".
  [[nodiscard]] static Result<std::unique_ptr<const JointTable>> of(const Piece& piece);
  [[nodiscard]] static Result<std::unique_ptr<const JointTable>> of(const Piece& piece,
                                                                    ExpressionCache& expressions);

  JointTable(const JointTable&) = delete;
  JointTable& operator=(const JointTable&) = delete;

  [[nodiscard]] const JointContext& context(JointId id) const { return contexts_[id.index()]; }
  [[nodiscard]] const JointKind& kind(JointId id) const { return *kinds_[id.index()]; }
  /// What the joint does to its mates, worked out once, when first asked for. One thread at a time.
  [[nodiscard]] const Result<JointCut>& cut(JointId id) const;
  /// Joints in which the part is a mate, in the order of the model.
  [[nodiscard]] std::span<const JointId> jointsOf(PartId part) const {
    return byPart_[part.index()];
  }

 private:
  explicit JointTable(const Piece& piece) : byPart_(piece.parts.size()) {}

  std::vector<JointContext> contexts_;
  std::vector<const JointKind*> kinds_;
  std::vector<std::vector<JointId>> byPart_;
  mutable std::vector<std::optional<Result<JointCut>>> cuts_;
};

}  // namespace dryfit::joinery

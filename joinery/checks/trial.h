#pragma once

#include <optional>
#include <string>
#include <vector>

#include "joinery/checks/checks.h"
#include "joinery/joints/joint_table.h"

namespace dryfit::joinery::checking {

/// Tries joints with other numbers, or as other kinds, by cutting them alone into their bare mates
/// and asking the checks that can tell something of one joint by itself.
class Trials {
 public:
  explicit Trials(const CheckInput& input);

  /// What would be found of the joint; none where it could not be cut so. Only findings that are
  /// `ofOneJoint`, and those of its fit. Errors: libraryFailure, cancelled.
  [[nodiscard]] Result<std::optional<std::vector<Finding>>> of(const JointRecord& record);
  /// What would be found of the whole piece, by the checks that look at cuts; none where the joint
  /// could not be cut so. Errors: libraryFailure, cancelled.
  [[nodiscard]] Result<std::optional<std::vector<Finding>>> inPiece(const JointRecord& record);
  /// The same joint as another kind, all its numbers left to the rules; none where that kind has
  /// other roles. REQUIRES: one part a role.
  [[nodiscard]] static std::optional<JointRecord> asKind(const JointRecord& record,
                                                         const JointKind& kind);
  /// A kind that would do for these mates by the rules.
  struct StandIn {
    const JointKind* kind = nullptr;  ///< null where none would
    bool twice = false;               ///< as two joints in line, on a wide rail
  };
  [[nodiscard]] Result<StandIn> kindFor(const JointRecord& record);
  /// A rail too wide for one tenon: all else is well, and it says by itself what would do.
  [[nodiscard]] static bool isOfWidth(const Finding& finding) {
    return finding.kind == FindingKind::weak && finding.changes.empty();
  }

 private:
  CheckInput input_;
  Piece bare_;  ///< the piece without any joint cut
};

/// "dowels"; "two blind-mortise-tenon joints in line". REQUIRES: there is one.
[[nodiscard]] std::string nameOf(const Trials::StandIn& standIn);

}  // namespace dryfit::joinery::checking

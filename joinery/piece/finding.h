#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "joinery/base/ids.h"
#include "kernel/geometry.h"

namespace dryfit::joinery {

enum class FindingKind {
  interference,
  clash,
  breakout,
  gap,
  loose,
  tight,
  shortGrain,
  crossGrain,
  weak,
  locked,
  envelope,
  notCut,
  unsupported,
  unsuited,
  binds,
};
/// "interference", "short-grain", ...
[[nodiscard]] std::string_view nameOf(FindingKind kind);

enum class Severity { error, warning, note };
[[nodiscard]] std::string_view nameOf(Severity severity);

/// One number of one joint that would put a finding right.
struct MendingNumber {
  JointId joint;
  std::string parameter;        ///< of the joint's kind, as in the model file
  std::optional<double> value;  ///< mm, as rounded in the words; none: leave it to the rules
  std::string words;            ///< "make the tenon of joint x at most 30 mm long"
  friend bool operator==(const MendingNumber&, const MendingNumber&) = default;
};

/// One thing the dry fit found.
struct Finding {
  FindingKind kind = FindingKind::interference;
  Severity severity = Severity::error;
  std::vector<PartId> parts;
  std::optional<JointId> joint;
  kernel::Point3 at;    ///< in the piece, mm
  kernel::Box3 box;     ///< round the place, in the piece
  double measured = 0;  ///< what was found, in `unit`
  double limit = 0;     ///< what is allowed, in `unit`
  std::string unit;     ///< "mm", "mm³", "°" or ""
  std::string source;   ///< of the limit
  std::string text;     ///< one plain sentence
  std::string mend;     ///< what would put it right
  /// What `mend` begins with, each for itself enough; empty where it is more than a number.
  std::vector<MendingNumber> changes;
  /// True where the joint would be so alone, whatever else is cut into its mates.
  bool ofOneJoint = false;
  friend bool operator==(const Finding&, const Finding&) = default;
};

}  // namespace dryfit::joinery

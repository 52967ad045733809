#pragma once

#include <functional>
#include <span>
#include <string_view>
#include <vector>

#include "joinery/checks/check_memory.h"
#include "joinery/piece/finding.h"
#include "joinery/piece/piece.h"
#include "kernel/result.h"
#include "kernel/solid.h"

namespace dryfit::joinery {

/// What a check looks at. Solids are in their parts' frames.
struct CheckInput {
  const Piece& piece;
  const std::vector<kernel::Solid>& solids;
  CheckMemory* memory = nullptr;  ///< answers of earlier states; may be null
  Unit unit = Unit::mm;           ///< of the sizes in the findings' words
  /// Asked between steps of a fraction of a second, on the thread that checks; false to stop. May
  /// be empty.
  std::function<bool()> goOn = {};

  /// Error: cancelled, where `goOn` says stop.
  [[nodiscard]] Result<void> stopIfAsked() const;
};

/// One check: appends its findings, in an order that depends on the input alone. A check that asks
/// the kernel, or works out the piece again, asks before each of these whether to stop. Errors:
/// libraryFailure, cancelled.
using Check = Result<void> (*)(const CheckInput& input, std::vector<Finding>& findings);

/// A check and what it looks for.
struct CheckRow {
  std::string_view name;
  Check run;
};

/// All checks: interference, clash, breakout, gap, not cut, unsupported, meeting, swing, fit
/// (loose, tight), grain, envelope, proportion, taper, locked, and what the joint kinds check
/// themselves; then two that look over what these found: unsuited, and mends. A new check is one
/// file in checks/ and one row in checks.cpp, before those two.
[[nodiscard]] std::span<const CheckRow> checks();

}  // namespace dryfit::joinery

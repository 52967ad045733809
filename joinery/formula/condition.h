#pragma once

#include <string>

#include "joinery/base/unit.h"
#include "joinery/formula/expression.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// Whether a condition over names holds: comparisons of two expressions by < <= > >= = !=, joined
/// by `and` and `or` (`and` binds closer) and turned round by `not`; brackets group. "doors > 0",
/// "width >= 900 and not (back = 0)". Lengths and bare numbers count as in evaluateLength; equal is
/// what is equal to rounding. Errors: badExpression, also for what compares nothing; unknownName.
[[nodiscard]] Result<bool> evaluateCondition(const std::string& text, Unit unit,
                                             const NameLookup& lookup);

}  // namespace dryfit::joinery

#pragma once

#include "joinery/piece/finding.h"

namespace dryfit::joinery::checking {

/// How bad a finding of this kind is: `Usual`, or `Special` where the kind's row in severity.cpp
/// says so (a wall of no thickness, a fit below zero, a deviation that the client approved).
enum class Case { usual, special };
[[nodiscard]] Severity severityOf(FindingKind kind, Case c = Case::usual);

}  // namespace dryfit::joinery::checking

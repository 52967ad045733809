#pragma once

#include <functional>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "joinery/base/unit.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// A value as its author wrote it: a number, or an expression over names ("case_width - 2*stock",
/// "left_stile.right", "1 3/8 in"). Bare numbers are in the file's unit.
struct Expression {
  std::string text;
  bool isNumber = false;  ///< written as a JSON number, and written back as one
  friend bool operator==(const Expression&, const Expression&) = default;
};

/// What an expression's names stand for, in mm. Returns no value for an unknown name.
using NameLookup = std::function<std::optional<double>(const std::string&)>;

/// Names that `expression` reads, sorted. Error: badExpression (syntax).
[[nodiscard]] Result<std::set<std::string>> namesIn(const Expression& expression);

/// The value in mm. Bare numbers count in `unit`; so "20" in a file in inches is 508 mm, and
/// "2 * stock" is twice the stock in any unit. Infix arithmetic, the functions of
/// formula/functions.h (angles in degrees), and the postfix units mm, cm, in. Errors:
/// badExpression, unknownName.
[[nodiscard]] Result<double> evaluateLength(const Expression& expression, Unit unit,
                                            const NameLookup& lookup);

/// As evaluateLength for plain numbers (angles in degrees, counts): nothing is scaled by the unit.
[[nodiscard]] Result<double> evaluateNumber(const Expression& expression, Unit unit,
                                            const NameLookup& lookup);

/// The candidate nearest to `name` by edit distance, for "did you mean"; empty when none is near.
[[nodiscard]] std::string nearestName(const std::string& name,
                                      const std::vector<std::string>& candidates);

/// The same as a question to the author: "did you mean 'top.left'?"; where only the end of a
/// candidate is near, as of a name in a copy of a sub-assembly, "did you mean 'front.left', as in
/// 'drawer_1.front.left'?". Empty when none is near.
[[nodiscard]] std::string nearestMend(const std::string& name,
                                      const std::vector<std::string>& candidates);

}  // namespace dryfit::joinery

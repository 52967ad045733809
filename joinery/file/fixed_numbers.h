#pragma once

#include <map>
#include <set>
#include <string>

#include "joinery/base/unit.h"
#include "joinery/file/json_document.h"
#include "joinery/formula/expression.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// The numbers of a document that do not depend on where parts are: its dimensions and the
/// thickness of its materials, worked out as they are asked for. How often something is there must
/// be known before any part is placed.
class FixedNumbers {
 public:
  explicit FixedNumbers(const JsonNode& document);

  /// Whether a condition holds. `place` is where it stands. Errors: badExpression, unknownName,
  /// cycle.
  [[nodiscard]] Result<bool> holds(const JsonNode& condition, const std::string& place);
  /// A whole number from 0 to `most`. Errors: the same; countUnfit.
  [[nodiscard]] Result<int> countOf(const JsonNode& count, int most, const std::string& place);

  /// A length in mm, or a plain number. Errors: those of holds().
  [[nodiscard]] Result<double> valueOf(const Expression& expression, bool length,
                                       const std::string& place);

 private:
  /// mm, or as written for a plain number; works out what it depends on first.
  [[nodiscard]] Result<void> workOut(const std::string& name);
  [[nodiscard]] Result<void> workOutAll(const std::set<std::string>& names);
  [[nodiscard]] const JsonNode* textOf(const std::string& name) const;

  const JsonNode& document_;
  Unit unit_ = Unit::mm;
  std::map<std::string, double> known_;
  std::set<std::string> underWay_;
};

}  // namespace dryfit::joinery

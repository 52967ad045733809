#pragma once

#include <memory>
#include <set>
#include <string>
#include <unordered_map>

#include "joinery/formula/expression.h"

namespace dryfit::joinery {

/// Expressions that were read before, by their text, so that an expression met again is only worked
/// out again. Keeps nothing of the values that names stood for. Not for use by two threads at once.
class ExpressionCache {
 public:
  ExpressionCache();
  ~ExpressionCache();
  ExpressionCache(ExpressionCache&&) noexcept;
  ExpressionCache& operator=(ExpressionCache&&) noexcept;

  /// As the functions of the same name, with the same results and errors.
  [[nodiscard]] Result<std::set<std::string>> namesIn(const Expression& expression);
  [[nodiscard]] Result<double> evaluateLength(const Expression& expression, Unit unit,
                                              const NameLookup& lookup);
  [[nodiscard]] Result<double> evaluateNumber(const Expression& expression, Unit unit,
                                              const NameLookup& lookup);

 private:
  class Parsed;
  [[nodiscard]] Result<Parsed*> parsed(const Expression& expression);

  std::unordered_map<std::string, std::unique_ptr<Parsed>> byText_;
};

}  // namespace dryfit::joinery

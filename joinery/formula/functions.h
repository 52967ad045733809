#pragma once

#include <span>
#include <string>
#include <string_view>

namespace dryfit::joinery {

/// A function of expressions. Angles are in degrees, both ways.
struct FormulaFunction {
  std::string_view name;
  double (*one)(double) = nullptr;               ///< of one value
  double (*many)(const double*, int) = nullptr;  ///< of one or more; null where `one` is set
  bool keepsItsName = false;                     ///< no dimension or part may be called so
};

/// All of them: min, max, round, floor, ceil, abs, sin, cos, tan, asin, acos, atan.
[[nodiscard]] std::span<const FormulaFunction> formulaFunctions();
/// The function with this name, or null.
[[nodiscard]] const FormulaFunction* formulaFunctionNamed(std::string_view name);
/// "min, max, ..., acos and atan".
[[nodiscard]] std::string formulaFunctionWords();

}  // namespace dryfit::joinery

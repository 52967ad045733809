#pragma once

#include <string>
#include <vector>

#include "kernel/result.h"

namespace dryfit::joinery {

/// A piece of an expression's text.
struct Token {
  enum class Kind { number, name, unit, function, operation, open, close, comma };
  Kind kind = Kind::number;
  std::string text;
};

/// The expression cut into tokens and checked to be arithmetic: values and operators take turns,
/// brackets pair up, functions are known, units stand behind numbers or brackets. A mixed fraction
/// such as "1 3/8" comes back as "( 1 + 3 / 8 )", and "3/8 in" as "( 3 / 8 ) in".
/// Error: badExpression; texts beyond 1000 characters are refused.
[[nodiscard]] Result<std::vector<Token>> tokensOf(const std::string& text);

/// True for words that expressions keep for themselves: mm, cm, in, and functions that keep their
/// name (see FormulaFunction).
[[nodiscard]] bool isReservedWord(const std::string& word);

}  // namespace dryfit::joinery

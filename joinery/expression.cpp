#include "joinery/expression.h"

#include <muParser.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>
#include <memory>

#include "joinery/expression_tokens.h"
#include "joinery/length_text.h"
#include "joinery/plain_text.h"

namespace dryfit::joinery {
namespace {

using Kind = Token::Kind;

tl::unexpected<Error> bad(std::string what, std::string mend = {}) {
  return fail(ErrorCode::badExpression, std::move(what), {}, std::move(mend));
}

/// A JSON number counts as it stands; text goes through the tokens.
Result<std::vector<Token>> readTokens(const Expression& expression) {
  if (!expression.isNumber) return tokensOf(expression.text);
  if (!isPlainNumber(expression.text)) return bad(inQuotes(expression.text) + " is not a number");
  return std::vector<Token>{{Kind::number, expression.text}};
}

double unitFactor(const std::string& word, Unit unit) {
  return millimetresIn(*unitNamed(word)) / millimetresIn(unit);
}

/// The text for the arithmetic library. Names become v0, v1, ... so that none of them can meet a
/// word of the library's own; a unit behind a value becomes a factor in a bracket.
class Formula {
 public:
  Formula(const std::vector<Token>& tokens, Unit unit) : unit_(unit) {
    for (const Token& t : tokens) add(t);
  }
  /// The library takes a word for a function only with its bracket right behind it.
  [[nodiscard]] std::string text() const {
    std::string joined;
    for (const std::string& w : words_) joined += isReservedWord(w) ? w : w + " ";
    return joined;
  }
  [[nodiscard]] const std::map<std::string, std::string>& variables() const { return variables_; }

 private:
  void add(const Token& t) {
    switch (t.kind) {
      case Kind::name:
        lastValue_ = words_.size();
        words_.push_back(
            variables_.try_emplace(t.text, "v" + std::to_string(variables_.size())).first->second);
        break;
      case Kind::unit: {
        words_.insert(words_.begin() + static_cast<std::ptrdiff_t>(lastValue_), "(");
        words_.insert(words_.end(), {"*", numberText(unitFactor(t.text, unit_)), ")"});
        break;
      }
      case Kind::open: {
        const bool call = !words_.empty() && isReservedWord(words_.back());
        opened_.push_back(call ? words_.size() - 1 : words_.size());
        words_.push_back(t.text);
        break;
      }
      case Kind::close:
        lastValue_ = opened_.back();
        opened_.pop_back();
        words_.push_back(t.text);
        break;
      case Kind::number:
        lastValue_ = words_.size();
        words_.push_back(t.text);
        break;
      default:
        words_.push_back(t.text);
    }
  }

  Unit unit_;
  std::vector<std::string> words_;
  std::vector<std::size_t> opened_;  ///< where the values in open brackets begin
  std::size_t lastValue_ = 0;        ///< where the value just ended begins
  std::map<std::string, std::string> variables_;
};

double least(const double* values, int count) {
  return *std::min_element(values, values + count);
}
double greatest(const double* values, int count) {
  return *std::max_element(values, values + count);
}
double rounded(double value) {
  return std::round(value);
}
double absolute(double value) {
  return std::fabs(value);
}

/// The value in the file's unit.
Result<double> evaluateFormula(const Formula& formula, std::map<std::string, double>& values) {
  try {
    mu::Parser parser;
    parser.ClearFun();
    parser.ClearConst();
    parser.DefineFun("min", least);
    parser.DefineFun("max", greatest);
    parser.DefineFun("round", rounded);
    parser.DefineFun("abs", absolute);
    for (auto& [name, value] : values) parser.DefineVar(name, &value);
    parser.SetExpr(formula.text());
    return parser.Eval();
  } catch (const mu::ParserError& e) {
    return bad("this is not arithmetic: " + inQuotes(e.GetMsg()));
  }
}

Result<double> evaluate(const Expression& expression, Unit unit, const NameLookup& lookup) {
  const Result<std::vector<Token>> tokens = readTokens(expression);
  if (!tokens) return tl::unexpected(tokens.error());
  // Most lengths of a model are plain numbers: no need for the library there.
  if (tokens->size() == 1 && tokens->front().kind == Kind::number) {
    return std::strtod(tokens->front().text.c_str(), nullptr);
  }
  const Formula formula(*tokens, unit);
  std::map<std::string, double> values;
  for (const auto& [name, variable] : formula.variables()) {
    const std::optional<double> value = lookup(name);
    if (!value) {
      return fail(ErrorCode::unknownName, "there is no name " + inQuotes(name) + " to read", {},
                  "define it, or check its spelling");
    }
    values[variable] = *value / millimetresIn(unit);
  }
  return evaluateFormula(formula, values);
}

Result<double> finite(Result<double> value, double factor) {
  if (!value) return value;
  const double scaled = *value * factor;
  if (!std::isfinite(scaled)) {
    return bad("the result is not a finite number", "check for a division by zero");
  }
  return scaled;
}

/// Letters to change, add, leave out or swap with their neighbour, so that one word becomes the
/// other (optimal string alignment distance).
std::size_t editDistance(const std::string& a, const std::string& b) {
  std::vector<std::size_t> beforeLast(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    beforeLast.swap(last);
    last.swap(row);
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replaced = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({replaced, last[j] + 1, row[j - 1] + 1});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], beforeLast[j - 2] + 1);
    }
  }
  return row[b.size()];
}

}  // namespace

Result<std::set<std::string>> namesIn(const Expression& expression) {
  const Result<std::vector<Token>> tokens = readTokens(expression);
  if (!tokens) return tl::unexpected(tokens.error());
  std::set<std::string> names;
  for (const Token& t : *tokens) {
    if (t.kind == Kind::name) names.insert(t.text);
  }
  return names;
}

Result<double> evaluateLength(const Expression& expression, Unit unit, const NameLookup& lookup) {
  return finite(evaluate(expression, unit, lookup), millimetresIn(unit));
}

Result<double> evaluateNumber(const Expression& expression, Unit unit, const NameLookup& lookup) {
  return finite(evaluate(expression, unit, lookup), 1);
}

std::string nearestName(const std::string& name, const std::vector<std::string>& candidates) {
  std::string nearest;
  std::size_t least = std::max<std::size_t>(1, (name.size() + 1) / 3) + 1;
  for (const std::string& candidate : candidates) {
    const std::size_t shorter = std::min(name.size(), candidate.size());
    if (std::max(name.size(), candidate.size()) - shorter >= least) continue;
    const std::size_t distance = editDistance(name, candidate);
    // A word with nothing in common with the candidate is no misspelling of it.
    if (distance < least && distance < std::max(name.size(), candidate.size())) {
      least = distance;
      nearest = candidate;
    }
  }
  return nearest;
}

}  // namespace dryfit::joinery

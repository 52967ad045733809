#include "joinery/formula/expression_cache.h"

#include "joinery/base/unit.h"

#include <muParser.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "joinery/base/plain_text.h"
#include "joinery/formula/expression_tokens.h"
#include "joinery/formula/functions.h"
#include "joinery/formula/length_text.h"

namespace dryfit::joinery {
namespace {

using Kind = Token::Kind;

/// So many texts are kept; a model has fewer, and typing has no end.
constexpr std::size_t kMostTexts = 4096;

tl::unexpected<Error> bad(std::string what, std::string mend = {}) {
  return fail(ErrorCode::badExpression, std::move(what), {}, std::move(mend));
}

/// A JSON number counts as it stands; text goes through the tokens.
Result<std::vector<Token>> readTokens(const Expression& expression) {
  if (!expression.isNumber) return tokensOf(expression.text);
  if (!isPlainNumber(expression.text)) return bad(inQuotes(expression.text) + " is not a number");
  return std::vector<Token>{{Kind::number, expression.text}};
}

tl::unexpected<Error> noName(const std::string& name) {
  return fail(ErrorCode::unknownName, "there is no name " + inQuotes(name), {},
              "define it, or check its spelling");
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
    for (const std::string& w : words_) joined += formulaFunctionNamed(w) ? w : w + " ";
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
        const bool call = !words_.empty() && formulaFunctionNamed(words_.back()) != nullptr;
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

/// A formula in the hands of the arithmetic library, which reads its text once.
class Arithmetic {
 public:
  Arithmetic(const Formula& formula, Unit unit) : unit_(unit) {
    parser_.ClearFun();
    parser_.ClearConst();
    for (const FormulaFunction& f : formulaFunctions()) {
      if (f.many != nullptr) parser_.DefineFun(std::string(f.name), f.many);
      if (f.one != nullptr) parser_.DefineFun(std::string(f.name), f.one);
    }
    for (const auto& [name, variable] : formula.variables()) {
      const auto at = values_.try_emplace(name, 0).first;
      parser_.DefineVar(variable, &at->second);
    }
    parser_.SetExpr(formula.text());
  }
  Arithmetic(const Arithmetic&) = delete;  // the library holds on to the places of the values
  Arithmetic& operator=(const Arithmetic&) = delete;

  [[nodiscard]] Unit unit() const { return unit_; }

  /// The value in `unit()`. Error: unknownName. Throws mu::ParserError.
  Result<double> value(const NameLookup& lookup) {
    for (auto& [name, value] : values_) {
      const std::optional<double> found = lookup(name);
      if (!found) return noName(name);
      value = *found / millimetresIn(unit_);
    }
    return parser_.Eval();
  }

 private:
  Unit unit_;
  mu::Parser parser_;
  std::map<std::string, double> values_;
};

Result<double> finite(Result<double> value, double factor) {
  if (!value) return value;
  const double scaled = *value * factor;
  if (!std::isfinite(scaled)) {
    return bad("the result is not a finite number",
               "check for a division by zero, or asin or acos of more than 1");
  }
  return scaled;
}

}  // namespace

class ExpressionCache::Parsed {
 public:
  explicit Parsed(std::vector<Token> tokens) : tokens_(std::move(tokens)) {
    for (const Token& t : tokens_) {
      if (t.kind == Kind::name) names_.insert(t.text);
    }
    readSteps();
  }
  [[nodiscard]] const std::set<std::string>& names() const { return names_; }

  Result<double> value(Unit unit, const NameLookup& lookup) {
    if (!steps_.empty()) return workOut(unit, lookup);
    try {
      if (!arithmetic_ || arithmetic_->unit() != unit) {
        arithmetic_ = std::make_unique<Arithmetic>(Formula(tokens_, unit), unit);
      }
      return arithmetic_->value(lookup);
    } catch (const mu::ParserError& e) {
      return bad("this cannot be worked out: " + inQuotes(e.GetMsg()));
    }
  }

 private:
  /// One step of plain arithmetic in reverse Polish order: a number, a name, or + - * /.
  struct Step {
    char sign = 0;  ///< 0: a value
    double number = 0;
    std::string name;  ///< empty: the number
  };

  static int rank(char sign) { return sign == '*' || sign == '/' ? 2 : 1; }

  /// Most lengths of a model are a number, a name, or a little arithmetic of a few: no need for the
  /// library there, which takes far longer to set up than to work out. What it alone knows (signs,
  /// powers, functions, units) is left to it.
  void readSteps() {
    std::vector<Step> steps;
    std::vector<char> waiting;  // signs and opened brackets
    bool valueEnded = false;
    const auto unstack = [&](int least) {
      while (!waiting.empty() && waiting.back() != '(' && rank(waiting.back()) >= least) {
        steps.push_back({waiting.back(), 0, {}});
        waiting.pop_back();
      }
    };
    for (const Token& t : tokens_) {
      const char sign = t.text.front();
      if (t.kind == Kind::number) {
        steps.push_back({0, plainNumber(t.text), {}});
        valueEnded = true;
      } else if (t.kind == Kind::name) {
        steps.push_back({0, 0, t.text});
        valueEnded = true;
      } else if (t.kind == Kind::open) {
        waiting.push_back('(');
      } else if (t.kind == Kind::close) {
        unstack(0);
        waiting.pop_back();
      } else if (t.kind == Kind::operation && sign != '^' && valueEnded) {
        unstack(rank(sign));
        waiting.push_back(sign);
        valueEnded = false;
      } else {
        return;
      }
    }
    unstack(0);
    steps_ = std::move(steps);
  }

  [[nodiscard]] Result<double> workOut(Unit unit, const NameLookup& lookup) const {
    std::vector<double> stack;
    stack.reserve(steps_.size());
    for (const Step& step : steps_) {
      if (step.sign == 0 && step.name.empty()) {
        stack.push_back(step.number);
      } else if (step.sign == 0) {
        const std::optional<double> found = lookup(step.name);
        if (!found) return noName(step.name);
        stack.push_back(*found / millimetresIn(unit));
      } else {
        const double right = stack.back();
        stack.pop_back();
        double& left = stack.back();
        left = step.sign == '+'   ? left + right
               : step.sign == '-' ? left - right
               : step.sign == '*' ? left * right
                                  : left / right;
      }
    }
    return stack.back();
  }

  std::vector<Token> tokens_;
  std::set<std::string> names_;
  std::vector<Step> steps_;                 ///< empty: it is more than plain arithmetic
  std::unique_ptr<Arithmetic> arithmetic_;  ///< for the unit last asked for
};

ExpressionCache::ExpressionCache() = default;
ExpressionCache::~ExpressionCache() = default;
ExpressionCache::ExpressionCache(ExpressionCache&&) noexcept = default;
ExpressionCache& ExpressionCache::operator=(ExpressionCache&&) noexcept = default;

Result<ExpressionCache::Parsed*> ExpressionCache::parsed(const Expression& expression) {
  // A JSON number and the same digits as text are read by different rules.
  const std::string key = (expression.isNumber ? '#' : '=') + expression.text;
  if (const auto found = byText_.find(key); found != byText_.end()) return found->second.get();
  Result<std::vector<Token>> tokens = readTokens(expression);
  if (!tokens) return tl::unexpected(tokens.error());
  if (byText_.size() >= kMostTexts) byText_.clear();
  return byText_.emplace(key, std::make_unique<Parsed>(std::move(*tokens))).first->second.get();
}

Result<std::set<std::string>> ExpressionCache::namesIn(const Expression& expression) {
  const Result<Parsed*> read = parsed(expression);
  if (!read) return tl::unexpected(read.error());
  return (*read)->names();
}

Result<double> ExpressionCache::evaluateLength(const Expression& expression, Unit unit,
                                               const NameLookup& lookup) {
  const Result<Parsed*> read = parsed(expression);
  if (!read) return tl::unexpected(read.error());
  return finite((*read)->value(unit, lookup), millimetresIn(unit));
}

Result<double> ExpressionCache::evaluateNumber(const Expression& expression, Unit unit,
                                               const NameLookup& lookup) {
  const Result<Parsed*> read = parsed(expression);
  if (!read) return tl::unexpected(read.error());
  return finite((*read)->value(unit, lookup), 1);
}

}  // namespace dryfit::joinery

#include "joinery/formula/expression_tokens.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <string_view>

#include "joinery/base/plain_text.h"
#include "joinery/formula/functions.h"

namespace dryfit::joinery {
namespace {

using Kind = Token::Kind;

constexpr std::size_t kLongestText = 1000;
constexpr std::array<std::string_view, 3> kUnitWords{"mm", "cm", "in"};

template <class Words>
bool contains(const Words& words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool isDigit(char c) {
  return c >= '0' && c <= '9';
}
bool isLetter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}

tl::unexpected<Error> bad(std::string what, std::string mend = {}) {
  return fail(ErrorCode::badExpression, std::move(what), {}, std::move(mend));
}

/// Cuts the text into tokens without looking at their order.
class Scanner {
 public:
  explicit Scanner(const std::string& text) : text_(text) {}

  Result<std::vector<Token>> scan() {
    while (at_ < text_.size()) {
      const char c = text_[at_];
      if (c == ' ' || c == '\t' || c == '\n' || c == '\r') {
        ++at_;
      } else if (isDigit(c) || (c == '.' && at_ + 1 < text_.size() && isDigit(text_[at_ + 1]))) {
        number();
      } else if (isLetter(c)) {
        word();
      } else if (std::string_view("+-*/^(),").find(c) != std::string_view::npos) {
        sign(c);
      } else {
        const std::string_view rest = std::string_view(text_).substr(at_);
        return bad(inQuotes(rest.substr(0, characterBytes(text_, at_))) + " has no meaning here",
                   "an expression uses + - * / ^ ( ), names, mm, cm, in and the functions " +
                       formulaFunctionWords());
      }
    }
    return std::move(tokens_);
  }

 private:
  void number() {
    const std::size_t start = at_;
    while (at_ < text_.size() && (isDigit(text_[at_]) || text_[at_] == '.')) ++at_;
    if (at_ < text_.size() && (text_[at_] == 'e' || text_[at_] == 'E')) {
      std::size_t digits = at_ + 1;
      if (digits < text_.size() && (text_[digits] == '+' || text_[digits] == '-')) ++digits;
      if (digits < text_.size() && isDigit(text_[digits])) {
        at_ = digits;
        while (at_ < text_.size() && isDigit(text_[at_])) ++at_;
      }
    }
    tokens_.push_back({Kind::number, text_.substr(start, at_ - start)});
  }

  void word() {
    const std::size_t start = at_;
    while (at_ < text_.size() &&
           (isLetter(text_[at_]) || isDigit(text_[at_]) || text_[at_] == '.')) {
      ++at_;
    }
    std::string text = text_.substr(start, at_ - start);
    const Kind kind = isFunction(text)             ? Kind::function
                      : contains(kUnitWords, text) ? Kind::unit
                                                   : Kind::name;
    tokens_.push_back({kind, std::move(text)});
  }

  /// A word that names may use as well is a function where a bracket opens behind it.
  [[nodiscard]] bool isFunction(const std::string& word) const {
    const FormulaFunction* function = formulaFunctionNamed(word);
    if (function == nullptr || function->keepsItsName) return function != nullptr;
    const std::size_t next = text_.find_first_not_of(" \t\n\r", at_);
    return next != std::string::npos && text_[next] == '(';
  }

  void sign(char c) {
    const Kind kind = c == '('   ? Kind::open
                      : c == ')' ? Kind::close
                      : c == ',' ? Kind::comma
                                 : Kind::operation;
    tokens_.push_back({kind, std::string(1, c)});
    ++at_;
  }

  const std::string& text_;
  std::size_t at_ = 0;
  std::vector<Token> tokens_;
};

bool isWhole(const Token& t) {
  return t.kind == Kind::number && std::all_of(t.text.begin(), t.text.end(), isDigit);
}

/// Brackets round the fractions that people write: "1 3/8" and "3/8 in".
std::vector<Token> withFractions(const std::vector<Token>& in) {
  const Token open{Kind::open, "("}, close{Kind::close, ")"}, plus{Kind::operation, "+"};
  const auto isFraction = [&](std::size_t i) {
    return i + 2 < in.size() && isWhole(in[i]) && in[i + 1].text == "/" && isWhole(in[i + 2]);
  };
  std::vector<Token> out;
  for (std::size_t i = 0; i < in.size(); ++i) {
    if (isWhole(in[i]) && isFraction(i + 1)) {
      out.insert(out.end(), {open, in[i], plus, in[i + 1], in[i + 2], in[i + 3], close});
      i += 3;
      continue;
    }
    const bool divides = i > 0 && (in[i - 1].text == "/" || in[i - 1].text == "^");
    if (!divides && isFraction(i) && i + 3 < in.size() && in[i + 3].kind == Kind::unit) {
      out.insert(out.end(), {open, in[i], in[i + 1], in[i + 2], close});
      i += 2;
      continue;
    }
    out.push_back(in[i]);
  }
  return out;
}

/// Walks the tokens once: what may follow depends on whether a value has just ended.
class Grammar {
 public:
  Result<void> check(const std::vector<Token>& tokens) {
    if (tokens.empty()) return bad("the expression is empty", "write a number or a formula");
    for (std::size_t i = 0; i < tokens.size(); ++i) {
      const Token* before = i > 0 ? &tokens[i - 1] : nullptr;
      const Token* behind = i + 1 < tokens.size() ? &tokens[i + 1] : nullptr;
      if (Result<void> step = take(tokens[i], before, behind); !step) return step;
    }
    if (!valueEnded_)
      return bad("the expression stops short after " + inQuotes(tokens.back().text));
    if (!brackets_.empty()) return bad("a bracket is not closed", "add ')'");
    return {};
  }

 private:
  Result<void> take(const Token& t, const Token* before, const Token* behind) {
    switch (t.kind) {
      case Kind::number:
      case Kind::name:
        return value(t, behind);
      case Kind::unit:
        return unit(t, before);
      case Kind::function:
        if (valueEnded_) return missingOperator(t);
        if (behind == nullptr || behind->kind != Kind::open) {
          return bad(inQuotes(t.text) + " needs its values in brackets",
                     "write " + t.text + "(...)");
        }
        return {};
      case Kind::operation:
        if (!valueEnded_ && t.text != "-" && t.text != "+") {
          return bad("a value is missing before " + inQuotes(t.text));
        }
        if (!valueEnded_ && before != nullptr && before->kind == Kind::operation && signs_++ > 0) {
          return bad("too many signs in a row at " + inQuotes(t.text));
        }
        if (valueEnded_) signs_ = 0;
        valueEnded_ = false;
        return {};
      case Kind::open:
        if (valueEnded_) return missingOperator(t);
        brackets_.push_back(before != nullptr && before->kind == Kind::function ? before->text
                                                                                : std::string());
        return {};
      case Kind::close:
        return close();
      case Kind::comma:
        return comma();
    }
    return {};
  }

  Result<void> value(const Token& t, const Token* behind) {
    if (valueEnded_) return missingOperator(t);
    if (t.kind == Kind::number && std::count(t.text.begin(), t.text.end(), '.') > 1) {
      return bad(inQuotes(t.text) + " is not a number");
    }
    if (t.kind == Kind::name && behind != nullptr && behind->kind == Kind::open) {
      return bad("there is no function " + inQuotes(t.text), "there are " + formulaFunctionWords());
    }
    valueEnded_ = true;
    return {};
  }

  Result<void> unit(const Token& t, const Token* before) {
    const bool follows =
        before != nullptr && (before->kind == Kind::number || before->kind == Kind::close);
    if (follows) return {};
    return bad("the unit " + inQuotes(t.text) + " has no number before it",
               "put it after a number, as in '5 " + t.text + "'");
  }

  Result<void> close() {
    if (brackets_.empty()) return bad("a bracket closes that was never opened", "remove ')'");
    if (!valueEnded_) return bad("a value is missing before ')'");
    brackets_.pop_back();
    return {};
  }

  Result<void> comma() {
    if (!valueEnded_) return bad("a value is missing before ','");
    if (brackets_.empty() || (brackets_.back() != "min" && brackets_.back() != "max")) {
      return bad("',' is only used inside min( ) and max( )", "write decimals with a point: 5.8");
    }
    valueEnded_ = false;
    return {};
  }

  tl::unexpected<Error> missingOperator(const Token& t) {
    return bad("an operator is missing before " + inQuotes(t.text));
  }

  bool valueEnded_ = false;
  int signs_ = 0;
  std::vector<std::string> brackets_;  ///< function whose bracket it is, or empty
};

}  // namespace

Result<std::vector<Token>> tokensOf(const std::string& text) {
  if (text.size() > kLongestText) {
    return bad("the expression has " + std::to_string(text.size()) + " characters",
               "at most 1000 are read; give parts of it names under dimensions");
  }
  Result<std::vector<Token>> scanned = Scanner(text).scan();
  if (!scanned) return scanned;
  std::vector<Token> tokens = withFractions(*scanned);
  if (Result<void> checked = Grammar().check(tokens); !checked) {
    return tl::unexpected(checked.error());
  }
  return tokens;
}

bool isReservedWord(const std::string& word) {
  const FormulaFunction* function = formulaFunctionNamed(word);
  return (function != nullptr && function->keepsItsName) || contains(kUnitWords, word);
}

}  // namespace dryfit::joinery

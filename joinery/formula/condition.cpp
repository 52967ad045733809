#include "joinery/formula/condition.h"

#include <array>
#include <cmath>
#include <string_view>

#include "joinery/base/plain_text.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

constexpr std::size_t kLongestText = 1000;
/// Longer ones first: "<=" is no "<".
constexpr std::array<std::string_view, 6> kComparisons{"<=", ">=", "!=", "<", ">", "="};

bool isWordPart(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
         c == '.';
}

/// Where a word or sign stands outside all brackets, from `start`; npos where nowhere.
std::size_t outside(std::string_view text, std::string_view wanted, std::size_t start = 0) {
  const bool word = isWordPart(wanted.front());
  int depth = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '(') ++depth;
    if (text[i] == ')') --depth;
    if (depth != 0 || i < start || text.substr(i, wanted.size()) != wanted) continue;
    const std::size_t end = i + wanted.size();
    if (word && i > 0 && isWordPart(text[i - 1])) continue;
    if (word && end < text.size() && isWordPart(text[end])) continue;
    return i;
  }
  return std::string_view::npos;
}

tl::unexpected<Error> bad(const std::string& what) {
  return fail(ErrorCode::badExpression, what, {},
              "write it as a comparison: \"doors > 0\", \"width >= 900 and back = 1\"");
}

/// True where one pair of brackets holds the whole text.
bool isBracketed(std::string_view text) {
  if (text.size() < 2 || text.front() != '(' || text.back() != ')') return false;
  int depth = 0;
  for (std::size_t i = 0; i + 1 < text.size(); ++i) {
    if (text[i] == '(') ++depth;
    if (text[i] == ')') --depth;
    if (depth == 0) return false;
  }
  return true;
}

class Judge {
 public:
  Judge(Unit unit, const NameLookup& lookup) : unit_(unit), lookup_(lookup) {}

  // Both sides are always judged, so that a name that is not known is told of whatever the other
  // side says.
  Result<bool> judge(std::string_view whole) const {
    const std::string text = trimmed(std::string(whole));
    if (text.empty()) return bad("a condition is missing here");
    for (const std::string_view word : {"or", "and"}) {
      const std::size_t at = outside(text, word);
      if (at == std::string::npos) continue;
      auto left = judge(std::string_view(text).substr(0, at));
      if (!left) return left;
      auto right = judge(std::string_view(text).substr(at + word.size()));
      if (!right) return right;
      return word == "or" ? *left || *right : *left && *right;
    }
    if (outside(text, "not") == 0) {
      return judge(std::string_view(text).substr(3)).map([](bool holds) { return !holds; });
    }
    for (const std::string_view sign : kComparisons) {
      const std::size_t at = outside(text, sign);
      if (at != std::string::npos) return compare(text, at, sign);
    }
    if (isBracketed(text)) return judge(std::string_view(text).substr(1, text.size() - 2));
    return bad(inQuotes(text) + " compares nothing");
  }

 private:
  [[nodiscard]] Result<bool> compare(const std::string& text, std::size_t at,
                                     std::string_view sign) const {
    const auto value = [&](const std::string& side) {
      return evaluateLength(Expression{trimmed(side), false}, unit_, lookup_);
    };
    const auto left = value(text.substr(0, at));
    if (!left) return tl::unexpected(left.error());
    const auto right = value(text.substr(at + sign.size()));
    if (!right) return tl::unexpected(right.error());
    const bool same = std::fabs(*left - *right) <= kernel::kSnap;
    if (sign == "=") return same;
    if (sign == "!=") return !same;
    if (sign == "<=") return same || *left < *right;
    if (sign == ">=") return same || *left > *right;
    return !same && (sign == "<" ? *left < *right : *left > *right);
  }

  Unit unit_;
  const NameLookup& lookup_;
};

}  // namespace

Result<bool> evaluateCondition(const std::string& text, Unit unit, const NameLookup& lookup) {
  if (text.size() > kLongestText) return bad("the condition is longer than 1000 characters");
  return Judge(unit, lookup).judge(text);
}

}  // namespace dryfit::joinery

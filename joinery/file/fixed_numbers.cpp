#include "joinery/file/fixed_numbers.h"

#include <fmt/format.h>

#include <cmath>
#include <vector>

#include "joinery/base/plain_text.h"
#include "joinery/formula/condition.h"
#include "joinery/formula/expression.h"
#include "joinery/formula/expression_tokens.h"
#include "joinery/formula/functions.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

Expression expressionOf(const JsonNode& node) {
  return {node.text, node.is(Type::number)};
}

bool isExpression(const JsonNode& node) {
  return node.is(Type::number) || node.is(Type::text);
}

/// The names in a condition, or in anything that reads like one: its signs and words are left out.
std::set<std::string> namesInText(const std::string& text) {
  std::set<std::string> names;
  std::string word;
  const auto isPart = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_' || c == '.';
  };
  for (const char c : text + " ") {
    if (isPart(c)) {
      word += c;
      continue;
    }
    const bool name = !word.empty() && word.front() >= 'a' && word.front() <= 'z';
    if (name && word != "and" && word != "or" && word != "not" && !isReservedWord(word)) {
      names.insert(word);
    }
    word.clear();
  }
  return names;
}

}  // namespace

FixedNumbers::FixedNumbers(const JsonNode& document) : document_(document) {
  const JsonNode* unit = document.find("unit");
  if (unit != nullptr && unit->text == "in") unit_ = Unit::inch;
  if (unit != nullptr && unit->text == "cm") unit_ = Unit::cm;
}

const JsonNode* FixedNumbers::textOf(const std::string& name) const {
  constexpr std::string_view kThickness = ".thickness";
  const JsonNode* node = nullptr;
  if (name.ends_with(kThickness)) {
    const JsonNode* list = document_.find("materials");
    const JsonNode* material =
        list == nullptr ? nullptr : list->find(name.substr(0, name.size() - kThickness.size()));
    if (material != nullptr) node = material->find("thickness");
  }
  if (const JsonNode* list = document_.find("dimensions"); node == nullptr && list != nullptr) {
    node = list->find(name);
    if (node != nullptr && node->is(Type::object)) node = node->find("value");
  }
  return node != nullptr && isExpression(*node) ? node : nullptr;
}

Result<void> FixedNumbers::workOutAll(const std::set<std::string>& names) {
  for (const std::string& name : names) {
    if (auto done = workOut(name); !done) return done;
  }
  return {};
}

Result<void> FixedNumbers::workOut(const std::string& name) {
  if (known_.contains(name)) return {};
  const JsonNode* text = textOf(name);
  if (text == nullptr) {
    return fail(ErrorCode::unknownName, "there is no dimension " + inQuotes(name), {},
                "what is there, and how often, may follow from dimensions and from the thickness "
                "of materials, not from where parts are");
  }
  if (!underWay_.insert(name).second) {
    return fail(ErrorCode::cycle, inQuotes(name) + " depends on itself");
  }
  const Expression expression = expressionOf(*text);
  const auto names = namesIn(expression);
  if (!names) return tl::unexpected(names.error());
  if (auto done = workOutAll(*names); !done) return done;
  const auto value = evaluateLength(
      expression, unit_, [&](const std::string& n) { return std::optional(known_.at(n)); });
  underWay_.erase(name);
  if (!value) return tl::unexpected(value.error());
  known_[name] = *value;
  return {};
}

Result<bool> FixedNumbers::holds(const JsonNode& condition, const std::string& place) {
  if (condition.is(Type::boolean)) return condition.truth;
  if (!condition.is(Type::text)) {
    return fail(ErrorCode::badModel, "a condition in quotes is needed here", place,
                "write it as a comparison: \"doors > 0\"");
  }
  std::set<std::string> names = namesInText(condition.text);
  std::erase_if(names, [&](const std::string& name) {
    return textOf(name) == nullptr && formulaFunctionNamed(name) != nullptr;
  });
  if (auto done = workOutAll(names); !done) {
    return tl::unexpected(done.error().within(place));
  }
  auto holds = evaluateCondition(condition.text, unit_, [&](const std::string& name) {
    const auto known = known_.find(name);
    return known == known_.end() ? std::nullopt : std::optional(known->second);
  });
  if (!holds) return tl::unexpected(holds.error().within(place));
  return holds;
}

Result<double> FixedNumbers::valueOf(const Expression& expression, bool length,
                                     const std::string& place) {
  const auto names = namesIn(expression);
  if (!names) return tl::unexpected(names.error().within(place));
  if (auto done = workOutAll(*names); !done) return tl::unexpected(done.error().within(place));
  const auto known = [&](const std::string& name) { return std::optional(known_.at(name)); };
  const auto value =
      length ? evaluateLength(expression, unit_, known) : evaluateNumber(expression, unit_, known);
  if (!value) return tl::unexpected(value.error().within(place));
  return *value;
}

Result<int> FixedNumbers::countOf(const JsonNode& count, int most, const std::string& place) {
  if (!isExpression(count)) {
    return fail(ErrorCode::badModel, "a number or an expression in quotes is needed here", place,
                "write how often it is there: 3, or \"shelves\"");
  }
  const auto value = valueOf(expressionOf(count), false, place);
  if (!value) return tl::unexpected(value.error());
  const double whole = std::round(*value);
  if (std::fabs(*value - whole) > kernel::kRounding || whole < 0 || whole > most) {
    return fail(
        ErrorCode::countUnfit,
        fmt::format("the count is {:.6g}; a whole number from 0 to {} is needed", *value, most),
        place, "round, floor or ceil makes a whole number");
  }
  return static_cast<int>(whole);
}

}  // namespace dryfit::joinery

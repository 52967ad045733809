#include "joinery/formula/length_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "joinery/formula/expression.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

std::string decimalText(double value, int decimals) {
  std::string text = fmt::format("{:.{}f}", value, decimals);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string fractionText(double inches) {
  const double sixtyFourths = std::round(std::fabs(inches) * 64);
  if (sixtyFourths > 1e15) return fmt::format("{}", inches);
  const auto count = static_cast<long long>(sixtyFourths);
  const long long whole = count / 64;
  const long long over = count % 64;
  const long long shared = std::gcd(over, 64LL);
  const std::string sign = inches < 0 && count > 0 ? "-" : "";
  if (over == 0) return fmt::format("{}{}", sign, whole);
  if (whole == 0) return fmt::format("{}{}/{}", sign, over / shared, 64 / shared);
  return fmt::format("{}{} {}/{}", sign, whole, over / shared, 64 / shared);
}

/// How lengths are told finely, in the unit itself.
struct FineSteps {
  double below = 0;     ///< up to here
  double step = 0;      ///< in these steps,
  int decimals = 0;     ///< so many decimals,
  double coarse = 0;    ///< beyond in these
  bool either = false;  ///< below, too, where the coarse step is nearer
};

FineSteps fineSteps(Unit unit) {
  switch (unit) {
    case Unit::mm:
      return {10, 0.01, 2, 0.1, false};
    case Unit::cm:
      return {1, 0.001, 3, 0.01, false};
    case Unit::inch:
      return {1, 0.001, 3, 1.0 / 64, true};
  }
  return {};
}

double nearest(double value, double step) {
  return std::round(value / step) * step;
}

/// True where the coarse step is at least as near as the fine one.
bool toldCoarsely(double value, const FineSteps& steps) {
  if (std::fabs(value) >= steps.below) return true;
  return steps.either && std::fabs(nearest(value, steps.coarse) - value) <=
                             std::fabs(nearest(value, steps.step) - value) + kernel::kRounding;
}

/// The nearest told length on one side of the value.
Length toldBeside(Length length, Unit unit, double (*side)(double), double way) {
  const FineSteps steps = fineSteps(unit);
  const double value = length.mm() / millimetresIn(unit);
  const auto to = [&](double step) {
    return side(value / step + way * kernel::kStepRounding) * step;
  };
  if (std::fabs(value) >= steps.below) return Length::mm(to(steps.coarse) * millimetresIn(unit));
  const double fine = to(steps.step);
  if (!steps.either) return Length::mm(fine * millimetresIn(unit));
  const double coarse = to(steps.coarse);
  const bool nearer = std::fabs(coarse - value) <= std::fabs(fine - value);
  return Length::mm((nearer ? coarse : fine) * millimetresIn(unit));
}

}  // namespace

std::string fineLengthText(Length length, Unit unit) {
  const double value = length.mm() / millimetresIn(unit);
  const FineSteps steps = fineSteps(unit);
  if (std::fabs(length.mm()) >= kernel::kContact && std::fabs(value) < steps.step / 2) {
    return fmt::format("{:.2g}", value);
  }
  return toldCoarsely(value, steps) ? lengthText(length, unit) : decimalText(value, steps.decimals);
}

std::string typedLengthText(Length length, Unit unit) {
  return decimalText(length.mm() / millimetresIn(unit), unit == Unit::mm ? 2 : 3);
}

Length toldAtMost(Length length, Unit unit) {
  return toldBeside(
      length, unit, [](double v) { return std::floor(v); }, 1);
}

Length toldAtLeast(Length length, Unit unit) {
  return toldBeside(
      length, unit, [](double v) { return std::ceil(v); }, -1);
}

std::string lengthText(Length length, Unit unit) {
  const double value = length.mm() / millimetresIn(unit);
  switch (unit) {
    case Unit::mm:
      return decimalText(value, 1);
    case Unit::cm:
      return decimalText(value, 2);
    case Unit::inch:
      return fractionText(value);
  }
  return {};
}

Result<std::string> lengthsTold(const std::string& text, Unit unit) {
  std::string told;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t open = std::min(text.find('{', at), text.size());
    const std::size_t close = text.find('}', open);
    told += text.substr(at, open - at);
    if (open == text.size()) break;
    if (close == std::string::npos) {
      return fail(ErrorCode::badExpression, "a brace is not closed", {}, "add '}'");
    }
    const Result<Length> length = parseLength(text.substr(open + 1, close - open - 1), Unit::mm);
    if (!length) return tl::unexpected(length.error());
    // A reason is a rule of thumb: a sixteenth of an inch is fine enough for it.
    const double step = unit == Unit::inch ? millimetresIn(unit) / 16 : 0;
    const double mm = step > 0 ? std::round(length->mm() / step) * step : length->mm();
    told += lengthText(Length::mm(mm), unit) + " " + std::string(nameOf(unit));
    at = close + 1;
  }
  return told;
}

Result<Length> parseLength(std::string_view text, Unit unit) {
  const auto noNames = [](const std::string&) { return std::optional<double>(); };
  Result<double> value = evaluateLength({std::string(text), false}, unit, noNames);
  if (!value) {
    value.error().code = ErrorCode::badExpression;
    return tl::unexpected(value.error());
  }
  return Length::mm(*value);
}

}  // namespace dryfit::joinery

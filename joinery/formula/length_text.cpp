#include "joinery/formula/length_text.h"

#include <fmt/format.h>

#include <cmath>
#include <numeric>

#include "joinery/formula/expression.h"

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

}  // namespace

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

std::string fineLengthText(Length length, Unit unit) {
  return decimalText(length.mm() / millimetresIn(unit), unit == Unit::mm ? 2 : 3);
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

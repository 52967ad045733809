#include "joinery/length_text.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <numeric>

#include "joinery/expression.h"

namespace dryfit::joinery {
namespace {

struct UnitRow {
  Unit unit;
  std::string_view name;
  double millimetres;
};

/// The inch is 25.4 mm exactly: international yard and pound agreement of 1959.
constexpr std::array<UnitRow, 3> kUnits{
    {{Unit::mm, "mm", 1}, {Unit::cm, "cm", 10}, {Unit::inch, "in", 25.4}}};

const UnitRow& row(Unit unit) {
  return kUnits[static_cast<std::size_t>(unit)];
}

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

double millimetresIn(Unit unit) {
  return row(unit).millimetres;
}

std::string_view nameOf(Unit unit) {
  return row(unit).name;
}

std::optional<Unit> unitNamed(std::string_view name) {
  for (const UnitRow& r : kUnits) {
    if (r.name == name) return r.unit;
  }
  return std::nullopt;
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

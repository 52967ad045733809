#include "joinery/formula/functions.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include "joinery/base/plain_text.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

constexpr double kDegree = std::numbers::pi / 180;

double least(const double* values, int count) {
  return *std::min_element(values, values + count);
}
double greatest(const double* values, int count) {
  return *std::max_element(values, values + count);
}
double rounded(double value) {
  return std::round(value);
}
// A count that rounding has left a hair beside a whole number is that number.
double down(double value) {
  return std::floor(value + kernel::kRounding);
}
double up(double value) {
  return std::ceil(value - kernel::kRounding);
}
double absolute(double value) {
  return std::fabs(value);
}

/// Exact at the quarters of a turn, where radians would leave a trace of 1e-16.
double sine(double degrees) {
  const double turn = std::remainder(degrees, 360);
  if (std::remainder(turn, 180) == 0) return 0;
  if (std::fabs(turn) == 90) return turn > 0 ? 1 : -1;
  return std::sin(turn * kDegree);
}
double cosine(double degrees) {
  const double turn = std::remainder(degrees, 360);
  if (std::fabs(turn) == 90) return 0;
  if (turn == 0) return 1;
  if (std::fabs(turn) == 180) return -1;
  return std::cos(turn * kDegree);
}
double tangent(double degrees) {
  return sine(degrees) / cosine(degrees);
}
double arcSine(double ratio) {
  return std::asin(ratio) / kDegree;
}
double arcCosine(double ratio) {
  return std::acos(ratio) / kDegree;
}
double arcTangent(double ratio) {
  return std::atan(ratio) / kDegree;
}

constexpr std::array kTable{
    FormulaFunction{"min", nullptr, least, true},
    FormulaFunction{"max", nullptr, greatest, true},
    FormulaFunction{"round", rounded, nullptr, true},
    FormulaFunction{"floor", down},
    FormulaFunction{"ceil", up},
    FormulaFunction{"abs", absolute, nullptr, true},
    FormulaFunction{"sin", sine},
    FormulaFunction{"cos", cosine},
    FormulaFunction{"tan", tangent},
    FormulaFunction{"asin", arcSine},
    FormulaFunction{"acos", arcCosine},
    FormulaFunction{"atan", arcTangent},
};

}  // namespace

std::span<const FormulaFunction> formulaFunctions() {
  return kTable;
}

const FormulaFunction* formulaFunctionNamed(std::string_view name) {
  const auto found = std::ranges::find(kTable, name, &FormulaFunction::name);
  return found == kTable.end() ? nullptr : &*found;
}

std::string formulaFunctionWords() {
  std::vector<std::string> names;
  names.reserve(kTable.size());
  for (const FormulaFunction& f : kTable) names.emplace_back(f.name);
  return listed(names);
}

}  // namespace dryfit::joinery

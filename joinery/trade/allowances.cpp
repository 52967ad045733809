#include "joinery/trade/allowances.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "joinery/formula/length_text.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

constexpr std::string_view kMemory = "common practice, from memory";
constexpr std::string_view kSheetThickness =
    "EN 315 for sanded plywood, from memory; agrees with the table of plyterra.com for 12 and 18 "
    "mm";

constexpr std::array kAllowances{
    Allowance{AllowanceId::solidLength, "length, solid timber", 25, "mm", kMemory},
    Allowance{AllowanceId::solidWidth, "width, solid timber", 5, "mm", kMemory},
    Allowance{AllowanceId::solidThickness, "thickness, solid timber", 4, "mm", kMemory},
    Allowance{AllowanceId::sheetLength, "length, sheets", 0, "mm",
              "common practice, from memory: sheets are cut straight to size"},
    Allowance{AllowanceId::sheetWidth, "width, sheets", 0, "mm",
              "common practice, from memory: sheets are cut straight to size"},
    Allowance{AllowanceId::stripWidthLeast, "least width of a strip", 60, "mm", kMemory},
    Allowance{AllowanceId::stripWidthMost, "greatest width of a strip", 150, "mm", kMemory},
    Allowance{AllowanceId::resawWidthMost, "greatest width sawn thinner", 200, "mm", kMemory},
    Allowance{AllowanceId::stripEdges, "edge joints, each strip", 5, "mm", kMemory},
    Allowance{AllowanceId::solidWaste, "waste, solid timber", 0.25, "",
              "common practice, from memory: 15 to 30 %, up to 40 % where all of it must be clear"},
    Allowance{AllowanceId::sheetWaste, "waste, sheets", 0.15, "",
              "common practice, from memory: 10 to 20 %"},
    Allowance{AllowanceId::edgingWaste, "waste, edging", 0.1, "", kMemory},
    Allowance{AllowanceId::edgingEnds, "ends of an edging", 40, "mm", kMemory},
    Allowance{AllowanceId::sheetThicknessOver, "thicker than its name", 0.2, "mm", kSheetThickness},
    Allowance{AllowanceId::sheetThicknessUnder, "thinner than its name", 0.4, "mm",
              kSheetThickness},
    Allowance{AllowanceId::sheetThicknessShare, "for each mm of thickness", 0.03, "",
              kSheetThickness},
    Allowance{AllowanceId::boardThicknessTimes, "thickest board, times the blank", 2, "", kMemory},
    Allowance{AllowanceId::boardThicknessMore, "thickest board, and more", 6, "mm", kMemory},
    Allowance{AllowanceId::sheetTrim, "trim, edges of a sheet", 10, "mm", kMemory},
    Allowance{AllowanceId::boardEndTrim, "trim, ends of a board", 50, "mm", kMemory},
    Allowance{AllowanceId::boardEdgeTrim, "trim, edges of a board", 3, "mm", kMemory},
    Allowance{AllowanceId::offcutLengthLeast, "shortest offcut kept", 300, "mm", kMemory},
    Allowance{AllowanceId::offcutWidthLeast, "narrowest offcut kept", 60, "mm", kMemory},
    Allowance{AllowanceId::finishCoats, "coats of finish", 3, "", kMemory},
    Allowance{AllowanceId::finishAreaPerLitre, "area a litre covers once", 12, "m²", kMemory},
};

constexpr bool inOrder() {
  for (std::size_t i = 0; i < kAllowances.size(); ++i) {
    if (static_cast<std::size_t>(kAllowances[i].id) != i) return false;
  }
  return true;
}
static_assert(inOrder(), "one row an AllowanceId, in their order");

constexpr double kInch = 25.4;
constexpr std::string_view kPlaned =
    "planed sizes: engineeringtoolbox.com, hardwood lumber rough and surfaced (d_1462)";
constexpr std::string_view kSeries = "common practice, from memory";

constexpr std::array kQuarters{
    SoldThickness{"4/4", kInch, 7.0 / 8 * kInch, 13.0 / 16 * kInch, kPlaned},
    SoldThickness{"5/4", 1.25 * kInch, 1.125 * kInch, 17.0 / 16 * kInch, kPlaned},
    SoldThickness{"6/4", 1.5 * kInch, 1.375 * kInch, 21.0 / 16 * kInch, kPlaned},
    SoldThickness{"8/4", 2 * kInch, 29.0 / 16 * kInch, 1.75 * kInch, kPlaned},
    SoldThickness{"10/4", 2.5 * kInch, 0, 0, kSeries},
    SoldThickness{"12/4", 3 * kInch, 45.0 / 16 * kInch, 2.75 * kInch, kPlaned},
    SoldThickness{"16/4", 4 * kInch, 61.0 / 16 * kInch, 3.75 * kInch, kPlaned},
};

constexpr std::array kMetric{
    SoldThickness{"27", 27, 0, 0, kSeries}, SoldThickness{"33", 33, 0, 0, kSeries},
    SoldThickness{"40", 40, 0, 0, kSeries}, SoldThickness{"52", 52, 0, 0, kSeries},
    SoldThickness{"65", 65, 0, 0, kSeries}, SoldThickness{"80", 80, 0, 0, kSeries},
};

}  // namespace

std::span<const Allowance> allowances() {
  return kAllowances;
}

const Allowance& allowance(AllowanceId id) {
  return kAllowances[static_cast<std::size_t>(id)];
}

std::span<const SoldThickness> quarterThicknesses() {
  return kQuarters;
}

std::span<const SoldThickness> metricThicknesses() {
  return kMetric;
}

std::vector<double> usualThicknesses(Unit unit) {
  std::vector<double> list;
  for (const SoldThickness& one : unit == Unit::inch ? quarterThicknesses() : metricThicknesses()) {
    list.push_back(one.rough);
  }
  return list;
}

std::string soldName(double roughThickness, Unit unit) {
  std::string size =
      fmt::format("{} {}", lengthText(Length::mm(roughThickness), unit), nameOf(unit));
  for (const SoldThickness& one : kQuarters) {
    if (std::fabs(one.rough - roughThickness) < kernel::kSameSold)
      return fmt::format("{} ({})", one.name, size);
  }
  return size;
}

int quartersOf(double roughThickness) {
  return std::max(4,
                  static_cast<int>(std::floor(roughThickness / kInch * 4 + kernel::kStepRounding)));
}

std::array<double, 2> usualSheet(Unit unit) {
  // 4 x 8 ft where people work in inches, else the common metric sheet; plyterra.com lists both.
  return unit == Unit::inch ? std::array{96 * kInch, 48 * kInch} : std::array{2500.0, 1250.0};
}

}  // namespace dryfit::joinery

#include "joinery/base/unit.h"

#include <array>
#include <cstddef>

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

}  // namespace dryfit::joinery

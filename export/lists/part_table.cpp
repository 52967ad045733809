#include "export/lists/part_table.h"

#include <fmt/format.h>

#include <utility>
#include <vector>

#include "joinery/formula/length_text.h"

namespace dryfit::exporting {

using joinery::Unit;

TextTable partTable(bool withMaterial) {
  using Side = TextTable::Side;
  std::vector<TextTable::Column> columns{
      {"No.", Side::right},       {"Part"},
      {"Count", Side::right},     {"Length", Side::right},
      {"Width", Side::right},     {"Thickness", Side::right},
      {"Shoulders", Side::right}, {"Grain"},
  };
  if (withMaterial) {
    columns.push_back({"Material"});
    columns.push_back({"Rough", Side::right});
  }
  columns.push_back({"Note"});
  return TextTable(std::move(columns));
}

namespace {

/// The longest edge and the shortest where the ends slant: the remark says which is which.
std::string shoulderText(const CutRow& row, Unit unit) {
  const std::string longest = joinery::lengthText(row.shoulderLength, unit);
  const std::string shortest = joinery::lengthText(row.shoulderShortest, unit);
  return longest == shortest ? longest : longest + " to " + shortest;
}

}  // namespace

void addPart(TextTable& table, const CutRow& row, Unit unit, const std::string& material,
             const std::string& rough) {
  const auto size = [unit](Length length) { return joinery::lengthText(length, unit); };
  std::vector<std::string> cells{
      std::to_string(row.number), row.label,       std::to_string(row.parts.size()),
      size(row.length),           size(row.width), size(row.thickness),
      shoulderText(row, unit),    row.grain,
  };
  if (!material.empty()) {
    cells.push_back(material);
    cells.push_back(rough);
  }
  std::string note = row.mirrorOf > 0 ? fmt::format("mirror of {}", row.mirrorOf) : "";
  const std::string remark = remarkText(row, unit);
  if (!remark.empty()) note += (note.empty() ? "" : "; ") + remark;
  cells.push_back(std::move(note));
  table.add(std::move(cells));
}

}  // namespace dryfit::exporting

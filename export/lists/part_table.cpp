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

void addPart(TextTable& table, const CutRow& row, Unit unit, const std::string& material,
             const std::string& rough) {
  const auto size = [unit](Length length) { return joinery::lengthText(length, unit); };
  std::vector<std::string> cells{
      std::to_string(row.number), row.label,       std::to_string(row.parts.size()),
      size(row.length),           size(row.width), size(row.thickness),
      size(row.shoulderLength),   row.grain,
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

#include <fmt/format.h>

#include <string_view>

#include "export/lists/cut_list.h"
#include "export/words/csv_cell.h"
#include "joinery/formula/length_text.h"

namespace dryfit::exporting {

std::string cutListCsv(const CutList& list, joinery::Unit unit) {
  const std::string_view u = joinery::nameOf(unit);
  std::string text = fmt::format(
      "number,part,count,length_{0},width_{0},thickness_{0},shoulder_length_{0},grain,material,"
      "species,mirror_of,remark\r\n",
      u);
  for (const CutSection& section : list.sections) {
    for (const CutRow& row : section.rows) {
      const auto size = [unit](Length length) { return decimalLength(length, unit); };
      text += fmt::format(
          "{},{},{},{},{},{},{},{},{},{},{},{}\r\n", row.number, csvCell(row.label),
          row.parts.size(), size(row.length), size(row.width), size(row.thickness),
          size(row.shoulderLength), row.grain, csvCell(section.material), csvCell(section.species),
          row.mirrorOf > 0 ? std::to_string(row.mirrorOf) : "", csvCell(remarkText(row, unit)));
    }
  }
  return text;
}

}  // namespace dryfit::exporting

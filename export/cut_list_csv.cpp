#include <fmt/format.h>

#include <string_view>

#include "export/cut_list.h"
#include "joinery/length_text.h"

namespace dryfit::exporting {

namespace {

/// RFC 4180, section 2, rules 5 to 7: a cell with a quote, comma or line break goes in quotes, and
/// a quote inside is doubled.
std::string cell(std::string_view text) {
  if (text.find_first_of("\",\r\n") == std::string_view::npos) return std::string(text);
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

}  // namespace

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
          "{},{},{},{},{},{},{},{},{},{},{},{}\r\n", row.number, cell(row.label), row.parts.size(),
          size(row.length), size(row.width), size(row.thickness), size(row.shoulderLength),
          row.grain, cell(section.material), cell(section.species),
          row.mirrorOf > 0 ? std::to_string(row.mirrorOf) : "", cell(remarkText(row, unit)));
    }
  }
  return text;
}

}  // namespace dryfit::exporting

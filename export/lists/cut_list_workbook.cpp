#include <fmt/format.h>
#include <xlsxwriter.h>

#include <array>

#include "export/files/workbook.h"
#include "export/lists/cut_list.h"
#include "joinery/formula/length_text.h"

namespace dryfit::exporting {

namespace {

using joinery::Unit;

struct WorkbookColumn {
  const char* head;
  double width;  // in characters of the default font
  bool isLength;
};

constexpr std::array<WorkbookColumn, 12> kColumns{{
    {"No.", 6, false},
    {"Part", 30, false},
    {"Count", 7, false},
    {"Length", 11, true},
    {"Width", 11, true},
    {"Thickness", 11, true},
    {"Shoulders", 11, true},
    {"Grain", 9, false},
    {"Material", 14, false},
    {"Species", 20, false},
    {"Mirror of", 10, false},
    {"Remark", 40, false},
}};

void writeHead(lxw_workbook* book, lxw_worksheet* sheet, Unit unit) {
  lxw_format* bold = headFormat(book);
  lxw_col_t column = 0;
  for (const WorkbookColumn& one : kColumns) {
    const std::string head =
        one.isLength ? fmt::format("{} {}", one.head, joinery::nameOf(unit)) : one.head;
    worksheet_set_column(sheet, column, column, one.width, nullptr);
    worksheet_write_string(sheet, 0, column, head.c_str(), bold);
    ++column;
  }
  setUpTable(sheet);
}

void writeRow(lxw_worksheet* sheet, lxw_row_t line, const CutSection& section, const CutRow& row,
              Unit unit, lxw_format* lengths) {
  worksheet_write_number(sheet, line, 0, row.number, nullptr);
  worksheet_write_string(sheet, line, 1, row.label.c_str(), nullptr);
  worksheet_write_number(sheet, line, 2, static_cast<double>(row.parts.size()), nullptr);
  lxw_col_t column = 3;
  for (const Length length : {row.length, row.width, row.thickness, row.shoulderLength}) {
    worksheet_write_number(sheet, line, column++, decimalLength(length, unit), lengths);
  }
  worksheet_write_string(sheet, line, 7, row.grain.c_str(), nullptr);
  worksheet_write_string(sheet, line, 8, section.material.c_str(), nullptr);
  worksheet_write_string(sheet, line, 9, section.species.c_str(), nullptr);
  if (row.mirrorOf > 0) worksheet_write_number(sheet, line, 10, row.mirrorOf, nullptr);
  const std::string remark = remarkText(row, unit);
  if (!remark.empty()) worksheet_write_string(sheet, line, 11, remark.c_str(), nullptr);
}

}  // namespace

Result<std::string> cutListWorkbook(const CutList& list, Unit unit) {
  return makeWorkbook("cut list", [&](lxw_workbook* book) {
    lxw_worksheet* sheet = workbook_add_worksheet(book, "Cut list");
    lxw_format* lengths = workbook_add_format(book);
    format_set_num_format(lengths, lengthFormat(unit));
    writeHead(book, sheet, unit);
    lxw_row_t line = 1;
    for (const CutSection& section : list.sections) {
      for (const CutRow& row : section.rows) writeRow(sheet, line++, section, row, unit, lengths);
    }
  });
}

}  // namespace dryfit::exporting

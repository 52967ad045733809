#include <fmt/format.h>
#include <xlsxwriter.h>

#include <array>

#include "export/files/workbook.h"
#include "export/lists/cut_list.h"
#include "export/lists/purchase_report.h"
#include "export/lists/purchase_words.h"
#include "export/words/labels_together.h"
#include "joinery/formula/length_text.h"
#include "joinery/trade/allowances.h"

namespace dryfit::exporting {

namespace {

using joinery::Unit;

struct Column {
  const char* head;
  double width;  // in characters of the default font
  bool isLength;
};

constexpr std::array<Column, 13> kBuy{{{"Section", 10, false},
                                       {"Item", 28, false},
                                       {"Sold as", 16, false},
                                       {"Count", 7, false},
                                       {"Longest", 11, true},
                                       {"Widest", 11, true},
                                       {"Quantity", 10, false},
                                       {"Unit", 6, false},
                                       {"Board feet", 10, false},
                                       {"Tally", 8, false},
                                       {"Cost", 10, false},
                                       {"Currency", 9, false},
                                       {"Note", 40, false}}};

constexpr std::array<Column, 8> kRough{{{"Count", 7, false},
                                        {"Length", 11, true},
                                        {"Width", 11, true},
                                        {"Thickness", 11, true},
                                        {"Material", 16, false},
                                        {"Sold as", 16, false},
                                        {"Becomes", 40, false},
                                        {"Part No.", 14, false}}};

/// The formats that both sheets share.
struct Formats {
  lxw_format *head, *length, *money, *plain;
};

template <std::size_t N>
lxw_worksheet* addSheet(lxw_workbook* book, const char* name, const std::array<Column, N>& columns,
                        Unit unit, const Formats& formats) {
  lxw_worksheet* sheet = workbook_add_worksheet(book, name);
  lxw_col_t at = 0;
  for (const Column& one : columns) {
    const std::string head =
        one.isLength ? fmt::format("{} {}", one.head, joinery::nameOf(unit)) : one.head;
    worksheet_set_column(sheet, at, at, one.width, nullptr);
    worksheet_write_string(sheet, 0, at++, head.c_str(), formats.head);
  }
  setUpTable(sheet);
  return sheet;
}

void text(lxw_worksheet* sheet, lxw_row_t row, lxw_col_t column, const std::string& value) {
  if (!value.empty()) worksheet_write_string(sheet, row, column, value.c_str(), nullptr);
}

void number(lxw_worksheet* sheet, lxw_row_t row, lxw_col_t column, std::optional<double> value,
            lxw_format* format) {
  if (value) worksheet_write_number(sheet, row, column, *value, format);
}

void writeLine(lxw_worksheet* sheet, lxw_row_t row, const PurchaseLine& line,
               const std::string& currency, Unit unit, const Formats& formats) {
  const auto size = [unit](const std::optional<Length>& length) {
    return length ? std::optional(decimalLength(*length, unit)) : std::nullopt;
  };
  text(sheet, row, 0, line.section);
  text(sheet, row, 1, line.item);
  text(sheet, row, 2, line.soldAs);
  if (line.count) number(sheet, row, 3, *line.count, nullptr);
  number(sheet, row, 4, size(line.longest), formats.length);
  number(sheet, row, 5, size(line.widest), formats.length);
  number(sheet, row, 6, line.quantity, formats.plain);
  text(sheet, row, 7, line.unit);
  number(sheet, row, 8, line.boardFeet, formats.plain);
  number(sheet, row, 9, line.tally, formats.plain);
  number(sheet, row, 10, line.cost, formats.money);
  if (line.cost) text(sheet, row, 11, currency);
  text(sheet, row, 12, line.note);
}

void writeRough(lxw_worksheet* sheet, lxw_row_t at, const RoughRow& row, Unit unit,
                const Formats& formats) {
  number(sheet, at, 0, row.count, nullptr);
  lxw_col_t column = 1;
  for (const Length length : {row.length, row.width, row.thickness}) {
    number(sheet, at, column++, decimalLength(length, unit), formats.length);
  }
  text(sheet, at, 4, wordsOf(row.material));
  if (row.soldThickness > 0) text(sheet, at, 5, joinery::soldName(row.soldThickness, unit));
  text(sheet, at, 6, labelsTogether(row.labels));
  text(sheet, at, 7, fmt::format("{}", fmt::join(row.numbers, ", ")));
}

}  // namespace

Result<std::string> purchaseWorkbook(const joinery::PurchaseList& list, const joinery::Piece& piece,
                                     Unit unit) {
  return makeWorkbook("purchase list", [&](lxw_workbook* book) {
    const Formats formats{headFormat(book), workbook_add_format(book), workbook_add_format(book),
                          workbook_add_format(book)};
    format_set_num_format(formats.length, lengthFormat(unit));
    format_set_num_format(formats.money, "0.00");
    format_set_num_format(formats.plain, "0.0###");
    lxw_worksheet* buy = addSheet(book, "To buy", kBuy, unit, formats);
    lxw_row_t row = 1;
    for (const PurchaseLine& line : purchaseLines(list, unit)) {
      writeLine(buy, row++, line, list.currency, unit, formats);
    }
    lxw_worksheet* rough = addSheet(book, "Rough sizes", kRough, unit, formats);
    row = 1;
    for (const RoughRow& one : roughRows(list, piece)) {
      writeRough(rough, row++, one, unit, formats);
    }
  });
}

}  // namespace dryfit::exporting

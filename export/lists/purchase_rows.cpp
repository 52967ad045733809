#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "export/lists/cut_list.h"
#include "export/lists/purchase_report.h"
#include "export/lists/purchase_words.h"
#include "joinery/formula/length_text.h"
#include "joinery/piece/part_list.h"
#include "joinery/trade/allowances.h"

namespace dryfit::exporting {

namespace {

using joinery::PurchaseList;
using joinery::Unit;

PurchaseLine timberLine(const joinery::TimberRow& row, Unit unit) {
  PurchaseLine line;
  line.section = "timber";
  line.item = row.species;
  line.soldAs = joinery::soldName(row.soldThickness, unit);
  line.count = row.blanks;
  line.longest = Length::mm(row.longest);
  line.widest = Length::mm(row.widest);
  line.quantity = row.buyVolume / kCubicMetre;
  line.unit = "m³";
  line.boardFeet = row.boardFeet;
  line.tally = row.tally;
  line.cost = row.cost;
  line.note = "count of rough pieces";
  return line;
}

PurchaseLine sheetLine(const joinery::SheetRow& row, Unit unit) {
  PurchaseLine line;
  line.section = "sheets";
  line.item = sheetName(row, unit);
  line.soldAs = sizeText(row.sheetLength, row.sheetWidth, unit);
  line.count = row.count;
  line.quantity = inAreaUnit(row.buyArea, unit);
  line.unit = areaUnit(unit);
  line.cost = row.cost;
  if (!row.tooLarge.empty()) {
    line.note = fmt::format("larger than the sheet: {}", fmt::join(row.tooLarge, "; "));
  }
  return line;
}

}  // namespace

std::vector<PurchaseLine> purchaseLines(const PurchaseList& list, Unit unit) {
  std::vector<PurchaseLine> lines;
  for (const auto& row : list.timber) lines.push_back(timberLine(row, unit));
  for (const auto& row : list.sheets) lines.push_back(sheetLine(row, unit));
  for (const auto& row : list.edging) {
    PurchaseLine line{"edging", wordsOf(row.name), {}, {}, {}, {}, {}, {}, {}, {}, {}, row.note};
    line.quantity = inRunUnit(row.buyLength, unit);
    line.unit = runUnit(unit);
    line.cost = row.cost;
    lines.push_back(std::move(line));
  }
  for (const auto& row : list.hardware) {
    PurchaseLine line{"hardware", row.name, {}, row.count, {}, {}, {}, {}, {}, {}, {}, row.note};
    line.cost = row.cost;
    lines.push_back(std::move(line));
  }
  PurchaseLine finish{"finish", "finish", {}, {}, {}, {}, {}, {}, {}, {}, {}, {}};
  finish.quantity = list.finish.litres;
  finish.unit = "l";
  finish.cost = list.finish.cost;
  finish.note = finishText(list.finish, unit);
  lines.push_back(std::move(finish));
  return lines;
}

std::vector<RoughRow> roughRows(const PurchaseList& list, const joinery::Piece& piece) {
  std::vector<int> numbers(piece.parts.size(), 0);
  for (const auto& group : joinery::groupParts(piece)) {
    for (const joinery::PartId id : group.parts) numbers[id.index()] = group.number;
  }
  std::map<std::string, std::size_t> order;
  for (const auto& material : piece.model.materials) order.try_emplace(material.name, order.size());
  // Rounded as on paper, so that a rounding error does not part two equal sizes.
  const auto paper = [](double mm) { return -decimalLength(Length::mm(mm), Unit::mm); };
  std::map<std::tuple<std::size_t, double, double, double>, RoughRow> rows;
  for (const joinery::RoughBlank& one : list.blanks) {
    const joinery::Blank& blank = one.blank;
    RoughRow& row = rows[{order[blank.material], paper(blank.length), paper(blank.width),
                          paper(blank.thickness)}];
    ++row.count;
    row.length = Length::mm(blank.length);
    row.width = Length::mm(blank.width);
    // The name of a sheet, not the least it may measure.
    const auto sheet = piece.values.find(blank.material + ".thickness");
    row.thickness = Length::mm(
        blank.form == joinery::StockForm::sheet && sheet != piece.values.end() ? sheet->second
                                                                               : blank.thickness);
    row.material = blank.material;
    row.soldThickness = one.soldThickness;
    for (const joinery::PartId id : one.parts) {
      row.numbers.push_back(numbers[id.index()]);
      const std::string label = piece.label(id);
      if (std::find(row.labels.begin(), row.labels.end(), label) == row.labels.end()) {
        row.labels.push_back(label);
      }
    }
  }
  std::vector<RoughRow> sorted;
  for (auto& [key, row] : rows) {
    std::sort(row.numbers.begin(), row.numbers.end());
    row.numbers.erase(std::unique(row.numbers.begin(), row.numbers.end()), row.numbers.end());
    sorted.push_back(std::move(row));
  }
  return sorted;
}

}  // namespace dryfit::exporting

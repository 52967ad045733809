#include "export/lists/purchase_report.h"

#include <fmt/format.h>

#include "export/lists/purchase_words.h"
#include "export/words/caution.h"
#include "export/words/head_text.h"
#include "export/words/text_table.h"
#include "joinery/formula/length_text.h"
#include "joinery/trade/allowances.h"

namespace dryfit::exporting {

namespace {

using joinery::Piece;
using joinery::PurchaseList;
using joinery::Unit;
using Side = TextTable::Side;

std::string sizeOf(double mm, Unit unit) {
  return joinery::lengthText(Length::mm(mm), unit);
}

std::string costHead(const PurchaseList& list) {
  return list.currency.empty() ? "Cost" : "Cost " + list.currency;
}

std::string timberText(const PurchaseList& list, const Piece& piece, Unit unit) {
  if (list.timber.empty()) return {};
  TextTable table({{"Timber"},
                   {"Thickness"},
                   {"Pieces", Side::right},
                   {"Longest", Side::right},
                   {"Widest", Side::right},
                   {"Finished m³", Side::right},
                   {"Rough m³", Side::right},
                   {"To buy m³", Side::right},
                   {"Board ft", Side::right},
                   {"Tally", Side::right},
                   {costHead(list), Side::right}});
  for (const auto& row : list.timber) {
    const auto volume = [](double mm3) { return fmt::format("{:.4f}", mm3 / kCubicMetre); };
    table.add({row.species, joinery::soldName(row.soldThickness, unit), std::to_string(row.blanks),
               sawnText(row.longest, unit), sawnText(row.widest, unit), volume(row.netVolume),
               volume(row.roughVolume), volume(row.buyVolume), fmt::format("{:.1f}", row.boardFeet),
               fmt::format("{:g}", row.tally), costText(row.cost)});
  }
  std::string text = table.text();
  for (const auto& material : piece.model.materials) {
    if (material.kind != joinery::MaterialKind::solid) continue;
    const auto rules = joinery::roughRules(material, piece.model.unit);
    text += fmt::format(
        "  {}: {} longer, {} wider, {} thicker than finished, and {:.0f} % more for waste\n",
        wordsOf(material.name), sizeOf(rules.length, unit), sizeOf(rules.width, unit),
        sizeOf(rules.thickness, unit), 100 * rules.waste);
  }
  return text +
         "  Finished: tenons and tongues included. Rough: in the thickness sold.\n"
         "  Board ft: by volume, anything under 1 in thick counted as 1 in. Tally: whole\n"
         "  square feet times the thickness in full quarters of an inch, as hardwood yards\n"
         "  count.\n\n";
}

std::string sheetsText(const PurchaseList& list, Unit unit) {
  if (list.sheets.empty()) return {};
  const std::string area = fmt::format(" {}", areaUnit(unit));
  TextTable table({{"Sheets"},
                   {"Sold as"},
                   {"Parts", Side::right},
                   {"Area" + area, Side::right},
                   {"With waste" + area, Side::right},
                   {"To buy", Side::right},
                   {costHead(list), Side::right}});
  std::string remarks;
  for (const auto& row : list.sheets) {
    table.add({sheetName(row, unit), sizeText(row.sheetLength, row.sheetWidth, unit),
               std::to_string(row.blanks), fmt::format("{:.2f}", inAreaUnit(row.area, unit)),
               fmt::format("{:.2f}", inAreaUnit(row.buyArea, unit)), std::to_string(row.count),
               costText(row.cost)});
    for (const std::string& name : row.tooLarge) {
      remarks +=
          fmt::format("  {} is larger than the sheet: buy a larger one or make the part in two\n",
                      wordsOf(name));
    }
  }
  return table.text() + remarks +
         "  Only a cutting layout shows for certain how many sheets are needed.\n\n";
}

std::string goodsText(const PurchaseList& list, Unit unit) {
  TextTable table(
      {{"Other items"}, {"To buy", Side::right}, {costHead(list), Side::right}, {"Note"}});
  for (const auto& row : list.edging) {
    table.add({wordsOf(row.name),
               fmt::format("{:.1f} {}", inRunUnit(row.buyLength, unit), runUnit(unit)),
               costText(row.cost), row.note});
  }
  for (const auto& row : list.hardware) {
    table.add({row.name, std::to_string(row.count), costText(row.cost), row.note});
  }
  table.add({"finish", fmt::format("{:.2f} l", list.finish.litres), costText(list.finish.cost),
             finishText(list.finish, unit)});
  return table.text() +
         fmt::format(
             "  Finish: exposed faces {0:.2f} {2}; all faces before glue-up {1:.2f} {2}.\n\n",
             inAreaUnit(list.finish.sightArea, unit), inAreaUnit(list.finish.allFaces, unit),
             areaUnit(unit));
}

/// "front left stile and 3 more"
std::string labelOf(const RoughRow& row) {
  if (row.labels.size() == 1) return row.labels.front();
  return fmt::format("{} and {} more", row.labels.front(), row.labels.size() - 1);
}

std::string roughText(const PurchaseList& list, const Piece& piece, Unit unit) {
  TextTable table({{"Pieces", Side::right},
                   {"Length", Side::right},
                   {"Width", Side::right},
                   {"Thickness", Side::right},
                   {"From"},
                   {"Becomes"},
                   {"Part No."}});
  for (const RoughRow& row : roughRows(list, piece)) {
    const auto size = [&](Length length) {
      return row.soldThickness > 0 ? sawnText(length.mm(), unit)
                                   : joinery::lengthText(length, unit);
    };
    table.add({std::to_string(row.count), size(row.length), size(row.width), size(row.thickness),
               row.soldThickness > 0
                   ? wordsOf(row.material) + ", " + joinery::soldName(row.soldThickness, unit)
                   : wordsOf(row.material),
               labelOf(row), fmt::format("{}", fmt::join(row.numbers, ", "))});
  }
  return "Rough sizes to cut; timber rounded up to a size for the saw\n" + table.text();
}

}  // namespace

std::string purchaseReport(const PurchaseList& list, const Piece& piece, Unit unit) {
  return headText("Purchase list", list.piece, list.basis, unit) + "\n" +
         timberText(list, piece, unit) + sheetsText(list, unit) + goodsText(list, unit) +
         totalText(list) + "\n" + roughText(list, piece, unit) + "\n" + safetyText(piece);
}

}  // namespace dryfit::exporting

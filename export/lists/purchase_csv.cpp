#include <fmt/format.h>

#include <cmath>

#include "export/lists/cut_list.h"
#include "export/lists/purchase_report.h"
#include "export/words/csv_cell.h"
#include "joinery/formula/length_text.h"

namespace dryfit::exporting {

namespace {

/// A number with at most `decimals` of them, or nothing.
std::string number(const std::optional<double>& value, int decimals) {
  if (!value) return {};
  const double scale = std::pow(10, decimals);
  return fmt::format("{}", std::round(*value * scale) / scale);
}

}  // namespace

std::string purchaseCsv(const joinery::PurchaseList& list, joinery::Unit unit) {
  std::string text = fmt::format(
      "section,item,sold_as,count,longest_{0},widest_{0},quantity,unit,board_feet,"
      "board_feet_tally,cost,currency,note\r\n",
      joinery::nameOf(unit));
  for (const PurchaseLine& line : purchaseLines(list, unit)) {
    const auto size = [unit](const std::optional<Length>& length) {
      return length ? fmt::format("{}", decimalLength(*length, unit)) : std::string();
    };
    text +=
        fmt::format("{},{},{},{},{},{},{},{},{},{},{},{},{}\r\n", line.section, csvCell(line.item),
                    csvCell(line.soldAs), line.count ? std::to_string(*line.count) : "",
                    size(line.longest), size(line.widest), number(line.quantity, 4), line.unit,
                    number(line.boardFeet, 2), number(line.tally, 2), number(line.cost, 2),
                    line.cost ? csvCell(list.currency) : "", csvCell(line.note));
  }
  return text;
}

}  // namespace dryfit::exporting

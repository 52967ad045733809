#include <fmt/format.h>

#include <cmath>

#include "export/lists/purchase_report.h"
#include "export/lists/purchase_words.h"
#include "export/words/head_text.h"
#include "export/words/text_table.h"
#include "joinery/base/plain_text.h"
#include "joinery/formula/length_text.h"
#include "joinery/trade/allowances.h"

namespace dryfit::exporting {

namespace {

using joinery::PurchaseList;
using joinery::Unit;

constexpr std::size_t kColumns = 40;
constexpr std::string_view kIndent = "    ";

/// The first `columns` characters of a word, as bytes.
std::size_t bytesOf(std::string_view word, std::size_t columns) {
  std::size_t bytes = 0;
  for (std::size_t k = 0; k < columns && bytes < word.size(); ++k) {
    bytes += joinery::characterBytes(word, bytes);
  }
  return bytes;
}

/// `text` word by word behind `lead`, further lines indented.
void addWrapped(std::string& out, std::string_view lead, std::string_view text) {
  std::string line(lead);
  bool empty = true;
  const auto end = [&] {
    out += line + "\n";
    line = kIndent;
    empty = true;
  };
  while (!text.empty()) {
    const std::size_t blank = text.find(' ');
    std::string_view word = text.substr(0, blank);
    text = blank == std::string_view::npos ? std::string_view() : text.substr(blank + 1);
    if (word.empty()) continue;
    if (!empty && columnsOf(line) + 1 + columnsOf(word) > kColumns) end();
    while (columnsOf(line) + (empty ? 0 : 1) + columnsOf(word) > kColumns) {
      const std::size_t bytes = bytesOf(word, kColumns - columnsOf(line));
      line += word.substr(0, bytes);
      word = word.substr(bytes);
      end();
    }
    line += (empty ? "" : " ") + std::string(word);
    empty = false;
  }
  if (!empty) out += line + "\n";
}

void addThing(std::string& out, const std::string& what,
              const std::vector<std::string>& more = {}) {
  addWrapped(out, "[ ] ", what);
  for (const std::string& line : more) {
    if (!line.empty()) addWrapped(out, kIndent, line);
  }
}

std::string sizeOf(double mm, Unit unit) {
  return fmt::format("{} {}", sawnText(mm, unit), joinery::nameOf(unit));
}

std::string costLine(const PurchaseList& list, const std::optional<double>& cost) {
  if (!cost) return {};
  return fmt::format("about {:.2f}{}", *cost, list.currency.empty() ? "" : " " + list.currency);
}

}  // namespace

std::string purchaseNote(const PurchaseList& list, Unit unit) {
  std::string text;
  addWrapped(text, "", list.piece);
  addWrapped(text, "", fmt::format("to buy, from sizes as {}", nameOf(list.basis)));
  text += '\n';
  for (const auto& row : list.timber) {
    addThing(
        text, fmt::format("{}, {} rough", row.species, joinery::soldName(row.soldThickness, unit)),
        {fmt::format("{:.3f} m³ = {:.1f} board feet", row.buyVolume / kCubicMetre, row.boardFeet),
         fmt::format("longest piece {}", sizeOf(row.longest, unit)),
         fmt::format("widest piece {}", sizeOf(row.widest, unit)), costLine(list, row.cost)});
  }
  for (const auto& row : list.sheets) {
    std::vector<std::string> more{
        fmt::format("{} {}", sizeText(row.sheetLength, row.sheetWidth, unit),
                    joinery::nameOf(unit)),
        costLine(list, row.cost)};
    for (const std::string& name : row.tooLarge) {
      more.push_back(wordsOf(name) + " is larger than that");
    }
    addThing(text,
             fmt::format("{} {}, {}", row.count, row.count == 1 ? "sheet" : "sheets",
                         sheetName(row, unit)),
             more);
  }
  for (const auto& row : list.edging) {
    addThing(text,
             fmt::format("{:.1f} {} {}", inRunUnit(row.buyLength, unit), runUnit(unit),
                         wordsOf(row.name)),
             {row.note, costLine(list, row.cost)});
  }
  for (const auto& row : list.hardware) {
    addThing(text, fmt::format("{} x {}", row.count, row.name),
             {row.note == "joints" ? "" : row.note, costLine(list, row.cost)});
  }
  addThing(text, fmt::format("{:.1f} l of finish", std::ceil(list.finish.litres * 10) / 10),
           {finishText(list.finish, unit), costLine(list, list.finish.cost)});
  return text;
}

}  // namespace dryfit::exporting

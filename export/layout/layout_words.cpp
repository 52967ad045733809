#include "export/layout/layout_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "export/lists/purchase_words.h"
#include "export/words/caution.h"
#include "export/words/head_text.h"
#include "export/words/text_table.h"
#include "joinery/formula/length_text.h"

namespace dryfit::exporting {

using joinery::MaterialSummary;
using joinery::StockLayout;

namespace {

std::string offcutsText(const LayoutJob& job) {
  std::string text;
  for (const StockLayout& one : job.layout.stock) {
    for (const auto& offcut : one.offcuts) {
      text += fmt::format("  {} from {}\n", job.size(offcut.length, offcut.width),
                          job.nameOfStock(one));
    }
  }
  return text;
}

bool cutsBoards(const LayoutJob& job) {
  return std::ranges::any_of(job.layout.stock, [&](const StockLayout& one) {
    return job.itemOf(one).form == joinery::StockForm::board;
  });
}

bool cutsSmallBlanks(const LayoutJob& job) {
  return std::ranges::any_of(job.layout.blanks, [](const joinery::Blank& blank) {
    const double along = blank.grain == joinery::Grain::length ? blank.length
                         : blank.grain == joinery::Grain::width
                             ? blank.width
                             : std::max(blank.length, blank.width);
    return isSmall(along, blank.thickness, blank.form == joinery::StockForm::board);
  });
}

}  // namespace

std::string percentText(double share) {
  return fmt::format("{:.1f} %", share * 100);
}

std::string costText(const LayoutJob& job, const MaterialSummary& material, double amount) {
  if (material.placed == 0) return "–";
  if (!material.byPrice) return fmt::format("{:.2f} m²", amount);
  return job.stock.currency.empty() ? fmt::format("{:.2f}", amount)
                                    : fmt::format("{:.2f} {}", amount, job.stock.currency);
}

std::string costHead(const LayoutJob& job) {
  const bool byArea = std::ranges::any_of(
      job.layout.materials, [](const MaterialSummary& m) { return m.placed > 0 && !m.byPrice; });
  return byArea ? "Cost or area" : "Cost";
}

std::string boundText(const LayoutJob& job, const MaterialSummary& material) {
  if (material.placed == 0) return "–";
  const bool known = material.bound > 0 || (material.placed > 0 && material.cost <= 0);
  return known ? costText(job, material, material.bound) : "none known";
}

double useOf(const MaterialSummary& material) {
  return material.stockArea > 0 ? material.blankArea / material.stockArea : 0;
}

std::string boundSentence(const LayoutJob& job, const MaterialSummary& material) {
  if (material.placed == 0) return {};
  if (material.cost <= 0) return "The stock used is already paid for, so no layout can cost less.";
  if (material.bound <= 0) return {};
  const std::string verb = material.byPrice ? "cost less than" : "use less stock than";
  const std::string which = material.placed < material.blanks
                                ? fmt::format("the {} that fit", material.placed)
                                : "these parts";
  std::string text = fmt::format("No layout of {} from this stock can {} {}", which, verb,
                                 costText(job, material, material.bound));
  if (!material.boundBy.empty()) text += fmt::format(" (worked out by {})", material.boundBy);
  const double over = material.cost / material.bound - 1;
  if (over < 1e-6) return text + "; this one reaches that, so none is better.";
  return text + fmt::format("; this one takes {}, so a better one could save {} at most.",
                            costText(job, material, material.cost),
                            percentText(1 - material.bound / material.cost));
}

std::string apartSentence(const std::string& match) {
  return fmt::format("The parts with the match \"{}\" could not be kept together.", match);
}

std::vector<std::string> materialsOf(const LayoutJob& job, const StockLayout& one) {
  if (one.blanks.empty()) return {job.itemOf(one).material};
  std::vector<std::string> materials;
  for (const joinery::PlacedBlank& placed : one.blanks) {
    const std::string& material = job.blankOf(placed.blank).material;
    if (std::ranges::find(materials, material) == materials.end()) materials.push_back(material);
  }
  return materials;
}

std::string namesOf(const std::vector<std::string>& materials) {
  return wordsOf(fmt::format("{}", fmt::join(materials, ", ")));
}

std::vector<LackingRow> lackingRows(const LayoutJob& job) {
  std::vector<LackingRow> rows;
  std::map<std::vector<std::string>, std::size_t> known;
  for (const joinery::Unplaced& one : job.layout.unplaced) {
    const auto [at, isNew] = known.try_emplace({job.numberOf(one.blank), job.nameOfBlank(one.blank),
                                                job.roughSizeOf(one.blank), one.why, one.buy},
                                               rows.size());
    if (isNew) rows.push_back({&one, 0});
    ++rows[at->second].count;
  }
  return rows;
}

std::string namesOf(const LayoutJob& job, const LackingRow& row) {
  const std::string name = job.nameOfBlank(row.one->blank);
  return row.count == 1 ? name : fmt::format("{} × {}", row.count, name);
}

int stockUsed(const LayoutJob& job, const MaterialSummary& material) {
  return static_cast<int>(std::ranges::count_if(job.layout.stock, [&](const StockLayout& one) {
    const std::string first = materialsOf(job, one).front();
    return std::ranges::find(material.materials, first) != material.materials.end();
  }));
}

std::string allowanceSentence(const LayoutJob& job, joinery::StockForm form) {
  const joinery::LayoutSettings& s = job.layout.settings;
  const bool routed =
      form == joinery::StockForm::sheet && s.sheetMethod == joinery::CutMethod::free;
  const std::string kerf = (routed ? "Cutter diameter " : "Saw kerf ") + job.length(s.kerf(form));
  if (form == joinery::StockForm::sheet) {
    return fmt::format("{}; {} trimmed off every edge of the sheet.", kerf,
                       job.length(s.sheetTrim));
  }
  return fmt::format("{}; {} trimmed off both ends and {} off both edges of the board.", kerf,
                     job.length(s.boardEndTrim), job.length(s.boardEdgeTrim));
}

std::vector<std::string> safetyOf(const LayoutJob& job) {
  std::vector<std::string> lines{std::string(caution(Hazard::machines).text)};
  if (cutsBoards(job)) lines.emplace_back(caution(Hazard::roughBoards).text);
  if (cutsSmallBlanks(job)) lines.emplace_back(caution(Hazard::smallParts).text);
  return lines;
}

namespace {

std::string safetyLines(const LayoutJob& job) {
  std::string text = "\nSafety:\n";
  for (const std::string& line : safetyOf(job)) text += "  " + line + "\n";
  return text;
}

}  // namespace

std::string layoutReport(const LayoutJob& job) {
  std::string text = headText("Cutting layout", job.piece, job.basis, job.unit);
  if (!job.layout.finished) text += "Stopped early: the best layout found so far\n";
  using Side = TextTable::Side;
  TextTable table({{"Material"},
                   {"Blanks placed", Side::right},
                   {"Stock used", Side::right},
                   {"Used", Side::right},
                   {costHead(job), Side::right},
                   {"Least possible", Side::right},
                   {"Cuts", Side::right}});
  std::string bounds;
  for (const MaterialSummary& material : job.layout.materials) {
    table.add({namesOf(material.materials),
               fmt::format("{} of {}", material.placed, material.blanks),
               std::to_string(stockUsed(job, material)), percentText(useOf(material)),
               costText(job, material, material.cost), boundText(job, material),
               std::to_string(material.cuts)});
    const std::string sentence = boundSentence(job, material);
    if (!sentence.empty())
      bounds += fmt::format("  {}: {}\n", namesOf(material.materials), sentence);
  }
  text += "\n" + table.text();
  if (!bounds.empty()) text += "\nHow near the best:\n" + bounds;
  const std::string offcuts = offcutsText(job);
  if (!offcuts.empty()) text += "\nOffcuts to keep:\n" + offcuts;
  for (const std::string& match : job.layout.matchesApart) {
    text += "\n" + apartSentence(match) + "\n";
  }
  const auto errors = errorsIn(job);
  if (!errors.empty()) text += "\nDo not cut yet:\n";
  for (const int blank : errors) {
    text += fmt::format("  {} {}: {}\n", job.numberOf(blank), job.nameOfBlank(blank),
                        job.factsOf(blank).error);
  }
  if (job.layout.unplaced.empty()) return text + safetyLines(job);
  text += fmt::format("\nDid not fit: {}\n", counted(job.layout.unplaced.size(), "blank"));
  for (const LackingRow& row : lackingRows(job)) {
    const int blank = row.one->blank;
    text += fmt::format("  {} {}, {}: {}\n", job.numberOf(blank), namesOf(job, row),
                        job.roughSizeOf(blank), row.one->why);
    if (!row.one->buy.empty()) {
      text += fmt::format("    to buy: {}{}\n", row.count == 1 ? "" : "for each, ", row.one->buy);
    }
  }
  return text + safetyLines(job);
}

}  // namespace dryfit::exporting

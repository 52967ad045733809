#include "export/layout/stock_tables.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

#include "export/layout/layout_words.h"
#include "export/words/caution.h"
#include "joinery/base/plain_text.h"

namespace dryfit::exporting {

using joinery::PlacedBlank;
using joinery::StockItem;
using joinery::StockLayout;

namespace {

constexpr TextStyle kBold = TextStyle::bold;

const StockLayout& firstOf(const LayoutJob& job, const Pattern& pattern) {
  return job.layout.stock[pattern.copies.front()];
}

void addBoardNotes(const LayoutJob& job, const StockItem& item, std::vector<std::string>& notes) {
  if (item.outline.empty() && item.nearWidth != item.farWidth) {
    notes.push_back(fmt::format("Tapered: {} wide at the near end, {} at the far end.",
                                job.length(item.nearWidth), job.length(item.farWidth)));
  }
  if (item.moisture) notes.push_back(fmt::format("Moisture {:.1f} %.", *item.moisture));
  if (!item.batch.empty()) notes.push_back("Batch " + item.batch + ".");
  if (!item.firstGrade.empty() || !item.secondGrade.empty()) {
    notes.push_back(fmt::format("Grade {} on the first face, {} on the second.",
                                item.firstGrade.empty() ? "not given" : item.firstGrade,
                                item.secondGrade.empty() ? "not given" : item.secondGrade));
  }
  if (item.offcut) notes.emplace_back("An offcut from an earlier job.");
  if (!item.note.empty()) notes.push_back("Note: " + item.note);
}

FlowBlock notesOf(const LayoutJob& job, const Pattern& pattern) {
  const StockLayout& one = firstOf(job, pattern);
  const StockItem& item = job.itemOf(one);
  std::vector<std::string> notes;
  if (pattern.copies.size() > 1) {
    notes.push_back(
        fmt::format("Cut {} like this: {}.", pattern.copies.size(), copiesText(job, pattern)));
  }
  notes.push_back(fmt::format("{} of the area becomes parts.", percentText(useOf(job, one))));
  notes.push_back(allowanceSentence(job, item.form));
  notes.emplace_back(
      "Positions are from the datum edge (drawn at the bottom) and the near end (at the left).");
  addBoardNotes(job, item, notes);
  const bool marked = std::ranges::any_of(one.blanks, [&](const PlacedBlank& placed) {
    const BlankFacts& facts = job.factsOf(placed.blank);
    return facts.faceEdgeAbove && facts.share.empty();
  });
  if (marked) {
    notes.emplace_back(
        "Where a part carries the face-side mark, that side is up; the tail of the mark points to "
        "the face edge. Rough wood may be turned over for the better face.");
  }
  FlowBlock block{"Notes", {}, {}};
  for (std::string& note : notes) block.rows.push_back({std::move(note)});
  return block;
}

FlowBlock partsOf(const LayoutJob& job, const Pattern& pattern, double width) {
  FlowBlock block{pattern.copies.size() > 1
                      ? fmt::format("Parts on each of the {}", pattern.copies.size())
                      : "Parts",
                  {{"No.", 10, TextAnchor::middle, kBold},
                   {"Part", 28, TextAnchor::left},
                   {"Rough L × W", 32, TextAnchor::left},
                   {"Pcs", 10, TextAnchor::middle}},
                  {}};
  widen(block, 1, width);
  using Key = std::tuple<int, std::string, std::string>;  // number, name, size
  std::map<Key, int> counts;
  for (const PlacedBlank& placed : firstOf(job, pattern).blanks) {
    const joinery::Blank& blank = job.blankOf(placed.blank);
    const std::string stop = job.factsOf(placed.blank).error.empty() ? "" : ": DO NOT CUT";
    ++counts[{job.factsOf(placed.blank).number, job.nameOfBlank(placed.blank) + stop,
              job.size(blank.length, blank.width)}];
  }
  for (const auto& [key, count] : counts) {
    const auto& [number, name, size] = key;
    block.rows.push_back(
        {number > 0 ? std::to_string(number) : "–", name, size, std::to_string(count)});
  }
  return block;
}

std::string givesText(const CutStep& step) {
  if (step.far == "waste") return step.near;
  if (step.near == "waste") return step.far;
  return step.near + ", " + step.far;
}

/// Trims that take less than the kerf only clean the edge up.
std::string settingText(const LayoutJob& job, const CutStep& step) {
  if (!step.trims) return job.length(step.setting);
  return step.setting < 0.05 ? "clean up" : "off " + job.length(step.setting);
}

FlowBlock cutsOf(const LayoutJob& job, const std::vector<CutStep>& steps, double width) {
  FlowBlock block{"Cuts in order",
                  {{"Cut", 10, TextAnchor::middle, kBold},
                   {"Kind", 17, TextAnchor::left},
                   {"Of", 13, TextAnchor::left},
                   {"Set to", 19, TextAnchor::right},
                   {"Gives", 24, TextAnchor::left}},
                  {}};
  widen(block, 4, width);
  for (const CutStep& step : steps) {
    block.rows.push_back({std::to_string(step.number), step.across ? "cross cut" : "rip", step.of,
                          settingText(job, step), givesText(step)});
  }
  return block;
}

FlowBlock cutWords(joinery::StockForm form) {
  FlowBlock block{
      "",
      {},
      {{"Set to: the distance from the near side of the piece being cut to the kerf, which is the "
        "size kept; with \"off\", the amount cut away. 3a is the near piece of cut 3, 3b the far "
        "one; near means toward the datum edge or the near end."},
       {std::string(caution(Hazard::machines).text)}}};
  if (form == joinery::StockForm::board) {
    block.rows.push_back({std::string(caution(Hazard::roughBoards).text)});
  }
  return block;
}

/// For free nesting: where each part lies.
FlowBlock placesOf(const LayoutJob& job, const StockLayout& one, double width) {
  FlowBlock block{"Positions of the parts",
                  {{"No.", 10, TextAnchor::middle, kBold},
                   {"From end", 20, TextAnchor::right},
                   {"From edge", 20, TextAnchor::right},
                   {"As laid, L × W", 30, TextAnchor::left}},
                  {}};
  widen(block, 3, width);
  std::vector<PlacedBlank> sorted = one.blanks;
  std::ranges::stable_sort(sorted, {},
                           [](const PlacedBlank& p) { return std::tie(p.at.x, p.at.y); });
  for (const PlacedBlank& p : sorted) {
    block.rows.push_back({job.numberOf(p.blank), job.length(p.at.x), job.length(p.at.y),
                          job.size(p.at.length, p.at.width)});
  }
  return block;
}

}  // namespace

std::string copiesText(const LayoutJob& job, const Pattern& pattern) {
  std::vector<std::string> numbers;
  numbers.reserve(pattern.copies.size());
  for (const std::size_t copy : pattern.copies) {
    numbers.push_back(std::to_string(job.layout.stock[copy].copy + 1));
  }
  return "no. " + joinery::listed(numbers);
}

std::vector<FlowBlock> stockTables(const LayoutJob& job, const Pattern& pattern,
                                   const std::vector<CutStep>& steps, double width) {
  std::vector<FlowBlock> blocks{notesOf(job, pattern), partsOf(job, pattern, width)};
  if (steps.empty()) {
    blocks.push_back(placesOf(job, firstOf(job, pattern), width));
  } else {
    blocks.push_back(cutsOf(job, steps, width));
    blocks.push_back(cutWords(job.itemOf(firstOf(job, pattern)).form));
  }
  return blocks;
}

}  // namespace dryfit::exporting

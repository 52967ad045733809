#include <fmt/format.h>

#include <map>

#include "export/layout/layout_words.h"
#include "export/layout/stock_tables.h"
#include "export/lists/purchase_words.h"
#include "export/words/head_text.h"

namespace dryfit::exporting {

using joinery::MaterialSummary;
using joinery::StockItem;
using joinery::StockLayout;

namespace {

FlowBlock headOf(const LayoutJob& job) {
  const std::size_t all = job.layout.blanks.size();
  FlowBlock block{"Whole job", {}, {}};
  block.rows.push_back(
      {fmt::format("{} of {} placed on {} of stock.", all - job.layout.unplaced.size(),
                   counted(all, "blank"), counted(job.layout.stock.size(), "piece"))});
  if (!job.layout.finished) {
    block.rows.push_back({"The search was stopped early; this is the best layout found so far."});
  }
  for (const std::string& match : job.layout.matchesApart) {
    block.rows.push_back({apartSentence(match)});
  }
  for (const std::string& line : safetyOf(job)) block.rows.push_back({line});
  return block;
}

FlowBlock materialsOf(const LayoutJob& job, double width) {
  FlowBlock block{"Materials",
                  {{"Material", 40, TextAnchor::left, TextStyle::bold},
                   {"Blanks placed", 30, TextAnchor::right},
                   {"Boards or sheets", 34, TextAnchor::right},
                   {"Becomes parts", 30, TextAnchor::right},
                   {costHead(job), 34, TextAnchor::right},
                   {"Least possible", 34, TextAnchor::right},
                   {"Cuts", 16, TextAnchor::right}},
                  {}};
  widen(block, 0, width);
  for (const MaterialSummary& m : job.layout.materials) {
    block.rows.push_back({namesOf(m.materials), fmt::format("{} of {}", m.placed, m.blanks),
                          std::to_string(stockUsed(job, m)), percentText(useOf(m)),
                          costText(job, m, m.cost), boundText(job, m), std::to_string(m.cuts)});
  }
  return block;
}

FlowBlock boundsOf(const LayoutJob& job) {
  FlowBlock block;
  for (const MaterialSummary& m : job.layout.materials) {
    const std::string sentence = boundSentence(job, m);
    if (!sentence.empty()) block.rows.push_back({namesOf(m.materials) + ": " + sentence});
  }
  return block;
}

FlowBlock unplacedOf(const LayoutJob& job, double width) {
  FlowBlock block{"Did not fit",
                  {{"No.", 10, TextAnchor::middle, TextStyle::bold},
                   {"Part", 50, TextAnchor::left},
                   {"Rough L × W × T", 40, TextAnchor::left},
                   {"Why", 60, TextAnchor::left},
                   {"To buy", 70, TextAnchor::left}},
                  {}};
  widen(block, 3, width);
  for (const LackingRow& row : lackingRows(job)) {
    const int blank = row.one->blank;
    block.rows.push_back({job.numberOf(blank), namesOf(job, row), job.roughSizeOf(blank),
                          row.one->why, row.one->buy});
  }
  return block;
}

FlowBlock doNotCut(const LayoutJob& job, double width) {
  FlowBlock block{"Do not cut yet",
                  {{"No.", 10, TextAnchor::middle, TextStyle::bold},
                   {"Part", 50, TextAnchor::left},
                   {"Why", 60, TextAnchor::left}},
                  {}};
  widen(block, 2, width);
  for (const int blank : errorsIn(job)) {
    block.rows.push_back({job.numberOf(blank), job.nameOfBlank(blank), job.factsOf(blank).error});
  }
  return block;
}

FlowBlock stockOf(const LayoutJob& job, const std::vector<Pattern>& patterns, double width) {
  FlowBlock block{"Stock used",
                  {{"Drawing", 18, TextAnchor::middle, TextStyle::bold},
                   {"Board or sheet", 50, TextAnchor::left},
                   {"Pcs", 12, TextAnchor::middle},
                   {"L × W × T", 46, TextAnchor::left},
                   {"Material", 40, TextAnchor::left},
                   {"Parts", 16, TextAnchor::right},
                   {"Cuts", 16, TextAnchor::right},
                   {"Becomes parts", 28, TextAnchor::right}},
                  {}};
  widen(block, 1, width);
  for (std::size_t i = 0; i < patterns.size(); ++i) {
    const StockLayout& one = job.layout.stock[patterns[i].copies.front()];
    const StockItem& item = job.itemOf(one);
    const joinery::FlatRect bounds = boundsOfStock(item);
    block.rows.push_back({fmt::format("L{}", i + 1), item.name,
                          std::to_string(patterns[i].copies.size()),
                          job.size(bounds.length, bounds.width, item.thickness),
                          namesOf(materialsOf(job, one)), std::to_string(one.blanks.size()),
                          std::to_string(one.cuts.size()), percentText(useOf(job, one))});
  }
  return block;
}

FlowBlock offcutsOf(const LayoutJob& job, const std::vector<Pattern>& patterns, double width) {
  FlowBlock block{"Offcuts to keep",
                  {{"Drawing", 18, TextAnchor::middle, TextStyle::bold},
                   {"From", 50, TextAnchor::left},
                   {"Pcs", 12, TextAnchor::middle},
                   {"L × W × T", 46, TextAnchor::left},
                   {"Material", 40, TextAnchor::left}},
                  {}};
  widen(block, 1, width);
  for (std::size_t i = 0; i < patterns.size(); ++i) {
    const StockLayout& one = job.layout.stock[patterns[i].copies.front()];
    for (const joinery::FlatRect& offcut : one.offcuts) {
      block.rows.push_back({fmt::format("L{}", i + 1), job.itemOf(one).name,
                            std::to_string(patterns[i].copies.size()),
                            job.size(offcut.length, offcut.width, job.itemOf(one).thickness),
                            namesOf(materialsOf(job, one))});
    }
  }
  return block;
}

}  // namespace

std::vector<FlowBlock> summaryTables(const LayoutJob& job, const std::vector<Pattern>& patterns,
                                     double width) {
  std::vector<FlowBlock> blocks{headOf(job),
                                doNotCut(job, width),
                                materialsOf(job, width),
                                boundsOf(job),
                                unplacedOf(job, width),
                                stockOf(job, patterns, width),
                                offcutsOf(job, patterns, width)};
  std::erase_if(blocks, [](const FlowBlock& block) { return block.rows.empty(); });
  return blocks;
}

}  // namespace dryfit::exporting

#pragma once

#include <string>
#include <vector>

#include "export/layout/layout_job.h"

namespace dryfit::exporting {

/// "62 %".
[[nodiscard]] std::string percentText(double share);
/// An amount in the measure of the material: "86.40 EUR", or "2.31 m²".
[[nodiscard]] std::string costText(const LayoutJob& job, const joinery::MaterialSummary& material,
                                   double amount);
/// The lower bound in that measure, or "none known".
/// Head of the column of costs: areas stand in it where a material has no price.
[[nodiscard]] std::string costHead(const LayoutJob& job);
[[nodiscard]] std::string boundText(const LayoutJob& job, const joinery::MaterialSummary& material);
/// Share of the stock used that becomes blanks.
[[nodiscard]] double useOf(const joinery::MaterialSummary& material);
/// What the lower bound says of this layout, in one or two sentences; empty where nothing is placed
/// or no bound is known.
[[nodiscard]] std::string boundSentence(const LayoutJob& job,
                                        const joinery::MaterialSummary& material);
/// Says that blanks of one match had to be parted.
[[nodiscard]] std::string apartSentence(const std::string& match);
/// Boards and sheets used for these materials.
[[nodiscard]] int stockUsed(const LayoutJob& job, const joinery::MaterialSummary& material);
/// The materials that a board or sheet is used for, each once; never empty.
[[nodiscard]] std::vector<std::string> materialsOf(const LayoutJob& job,
                                                   const joinery::StockLayout& one);
/// "case ply, drawer ply".
[[nodiscard]] std::string namesOf(const std::vector<std::string>& materials);

/// Equal blanks that found no place, for the same reason.
struct LackingRow {
  const joinery::Unplaced* one = nullptr;  ///< the first of them
  int count = 0;
};
/// In the order of layout.unplaced.
[[nodiscard]] std::vector<LackingRow> lackingRows(const LayoutJob& job);
/// "Drawer side", or "3 × Drawer side".
[[nodiscard]] std::string namesOf(const LayoutJob& job, const LackingRow& row);
/// Kerf and trims in one sentence.
[[nodiscard]] std::string allowanceSentence(const LayoutJob& job, joinery::StockForm form);

/// What can hurt someone who cuts by this layout: the warnings on machines, on rough boards where
/// there are boards, and on small parts where a blank is one by `isSmall`.
[[nodiscard]] std::vector<std::string> safetyOf(const LayoutJob& job);

/// The report on a terminal: a block a material, then what did not fit and what to buy.
[[nodiscard]] std::string layoutReport(const LayoutJob& job);

}  // namespace dryfit::exporting

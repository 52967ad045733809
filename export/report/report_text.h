#pragma once

#include <string>
#include <vector>

#include "export/lists/cut_list.h"
#include "export/words/head_text.h"
#include "joinery/fit/absorb.h"
#include "joinery/making/frame_advice.h"
#include "joinery/making/measure.h"
#include "joinery/piece/piece.h"

namespace dryfit::joinery {
struct DryFit;
}

namespace dryfit::exporting {

/// Head, findings and safety lines, as handed to the bench.
[[nodiscard]] std::string checkReport(const joinery::DryFit& fit, joinery::Unit unit);
/// Head, tables and safety lines, as handed to the bench.
[[nodiscard]] std::string cutListReport(const CutList& list, joinery::Unit unit);

/// All findings with their places, worst first, under a line that counts them.
[[nodiscard]] std::string findingsText(const joinery::DryFit& fit, joinery::Unit unit);

/// What a measured size changes: a table of sizes and one of joint numbers, or a line that says
/// that nothing changes.
[[nodiscard]] std::string changesText(const joinery::ChangeReport& report,
                                      const joinery::Piece& after, joinery::Unit unit);

/// Every part as drawn and as measured, side by side, with mark, moisture and taper.
/// REQUIRES: both of one model.
[[nodiscard]] std::string bothSizesText(const joinery::Piece& drawn, const joinery::Piece& measured,
                                        joinery::Unit unit);

/// All marks of a model, and what each of them fixes.
[[nodiscard]] std::string marksText(const joinery::Model& model, joinery::Unit unit);

/// The changes by which made parts fit again, and those that would make an error; only `chosen`
/// where it is not null.
[[nodiscard]] std::string absorptionsText(const joinery::Absorptions& all,
                                          const joinery::Absorption* chosen, joinery::Unit unit);

/// The findings that a change caused, below a heading; empty where there are none.
[[nodiscard]] std::string newFindingsText(const joinery::Piece& piece,
                                          const std::vector<joinery::Finding>& fresh,
                                          joinery::Unit unit);

/// What a dry-fitted frame is like, and what to do about it.
[[nodiscard]] std::string readingsText(const std::string& frame, const joinery::FrameLook& look,
                                       const joinery::FrameShape& shape,
                                       const std::vector<std::string>& advice, joinery::Unit unit);

}  // namespace dryfit::exporting

#pragma once

#include "export/drawing/sheet.h"
#include "export/layout/cut_plan.h"
#include "export/layout/layout_job.h"

namespace dryfit::exporting {

/// A board or sheet on paper, with how well its parts could be lettered.
struct StockView {
  Ink ink;         ///< lower left corner at (0, 0)
  int named = 0;   ///< parts with their names on them
  int sized = 0;   ///< parts with number and size only
  int plain = 0;   ///< parts with the number only
  int called = 0;  ///< parts too small for that: the number stands outside, with a leader
};

/// Draws a board or sheet to `scale`, the datum edge below and the near end at the left, in `rows`
/// rows one under the other where it is long. Never distorted.
[[nodiscard]] StockView drawStock(const LayoutJob& job, const joinery::StockLayout& one,
                                  const std::vector<CutStep>& steps, double scale, int rows);

}  // namespace dryfit::exporting

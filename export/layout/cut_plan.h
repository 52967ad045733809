#pragma once

#include <string>
#include <vector>

#include "export/layout/layout_job.h"

namespace dryfit::exporting {

/// One cut as it is made at the saw.
struct CutStep {
  int number = 0;           ///< from 1, in the order of cutting
  bool across = false;      ///< a cross cut; else a rip
  std::string of;           ///< what is cut: "whole", or "2b": the far piece of cut 2
  joinery::FlatRect piece;  ///< where that lies
  double at = 0;            ///< where the kerf begins, from the near end or the datum edge
  bool trims = false;       ///< the near side holds no part: `setting` is what comes off
  double setting = 0;       ///< mm from the near side to the kerf: width of what is kept, or comes
                            ///< off
  std::string near, far;    ///< what comes of it: "No. 12", "3a", "offcut", "waste"
};

/// The cuts of one board or sheet in their order. Cuts of pieces that are not there are left out.
[[nodiscard]] std::vector<CutStep> cutStepsOf(const LayoutJob& job,
                                              const joinery::StockLayout& one);

}  // namespace dryfit::exporting

#pragma once

#include <string>
#include <vector>

#include "joinery/base/progress.h"
#include "joinery/making/fit_changes.h"
#include "joinery/model/model.h"
#include "joinery/piece/finding.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// A change that takes up what made parts do not fit any more, dry-fitted.
struct Absorption {
  FreeNumber what;
  double before = 0, after = 0;            ///< mm
  std::string afterText;                   ///< as the file takes it, in its unit
  std::vector<Finding> resultingFindings;  ///< that are not there now
  std::vector<std::string> partsChanged;   ///< whose sizes are others then; none of them is marked
};

/// Every change of one number after which all made parts fit, smallest first.
struct Absorptions {
  std::vector<Absorption> sound;    ///< that make no new error
  std::vector<Absorption> unsound;  ///< that do; their errors come first among the findings
  bool needed = false;              ///< some part already made no longer fits
};

/// Nothing where no made part is out. Sizes in the findings' words are in `unit`. Errors: those of
/// dryFit for the model as it is; cancelled.
[[nodiscard]] Result<Absorptions> absorptions(const Model& model, Basis basis,
                                              const Progress& progress = {}, Unit unit = Unit::mm);

}  // namespace dryfit::joinery

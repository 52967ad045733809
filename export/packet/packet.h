#pragma once

#include "export/files/output_folder.h"
#include "joinery/fit/dry_fit.h"
#include "joinery/model/model.h"
#include "kernel/result.h"

namespace dryfit::exporting {

/// Puts everything for the bench into the staging part of `folder`: check.txt, cut_list.txt, .csv
/// and .xlsx, to_buy.txt and .xlsx, assembly.step, drawings.pdf and drawings/*.svg. Errors:
/// libraryFailure, fileNotWritten, cancelled; nothing is in place until the caller commits the
/// folder.
[[nodiscard]] Result<void> makePacket(const joinery::DryFit& fit, joinery::Unit unit,
                                      const OutputFolder& folder,
                                      const joinery::Progress& progress = {});

}  // namespace dryfit::exporting

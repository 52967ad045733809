#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "export/lists/cut_list.h"
#include "joinery/fit/absorb.h"
#include "joinery/fit/dry_fit.h"
#include "joinery/making/frame_advice.h"
#include "joinery/making/measure.h"

namespace dryfit::exporting {

// Reports for other programs: JSON, indented, ending in a line feed. Lengths are in mm and volumes
// in mm³ whatever unit the reader asked for; keys say so. export/json_output.md describes them.

/// `solids` by PartId, for the volumes.
[[nodiscard]] std::string partsJson(const joinery::DryFit& fit);
[[nodiscard]] std::string findingsJson(const joinery::DryFit& fit);
[[nodiscard]] std::string cutListJson(const CutList& list);
/// `fresh` are the findings that the change caused; `saved` tells whether the sizes were written to
/// the model.
[[nodiscard]] std::string changesJson(const joinery::ChangeReport& report,
                                      const joinery::Piece& after,
                                      const std::vector<joinery::Finding>& fresh, bool saved);
/// Every part as drawn and as measured. REQUIRES: both of one model.
[[nodiscard]] std::string bothSizesJson(const joinery::Piece& drawn,
                                        const joinery::Piece& measured);
/// All marks of a model; `fresh` are the findings that the last of them caused, `saved` tells
/// whether they were written to it.
[[nodiscard]] std::string marksJson(const joinery::Model& model,
                                    const std::vector<joinery::Finding>& fresh, bool saved);
/// `chosen` (may be null) is the one that was applied; `saved` whether it was written.
[[nodiscard]] std::string absorptionsJson(const joinery::Absorptions& all,
                                          const joinery::Model& model, joinery::Basis basis,
                                          const joinery::Absorption* chosen, bool saved);
/// `frame` as it was named.
[[nodiscard]] std::string readingsJson(const joinery::Piece& piece, const std::string& frame,
                                       const joinery::FrameShape& shape,
                                       const std::vector<std::string>& advice);
[[nodiscard]] std::string filesJson(const std::vector<std::filesystem::path>& files);

}  // namespace dryfit::exporting

#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "export/cut_list.h"
#include "joinery/dry_fit.h"
#include "joinery/measure.h"

namespace dryfit::exporting {

// Reports for other programs: JSON, indented, ending in a line feed. Lengths are in mm and volumes
// in mm³ whatever unit the reader asked for; keys say so. export/json_output.md describes them.

/// `solids` by PartId, for the volumes.
[[nodiscard]] std::string partsJson(const joinery::DryFit& fit);
[[nodiscard]] std::string findingsJson(const joinery::DryFit& fit);
[[nodiscard]] std::string cutListJson(const CutList& list);
/// `saved` tells whether the sizes were written to the model.
[[nodiscard]] std::string changesJson(const joinery::ChangeReport& report,
                                      const joinery::Piece& after, bool saved);
[[nodiscard]] std::string filesJson(const std::vector<std::filesystem::path>& files);

}  // namespace dryfit::exporting

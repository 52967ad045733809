#pragma once

#include <string>
#include <vector>

#include "joinery/piece/piece.h"
#include "kernel/result.h"
#include "kernel/solid.h"

namespace dryfit::exporting {

/// Application protocols of ISO 10303 that a file may follow.
enum class StepSchema { ap214, ap242 };

struct StepOptions {
  StepSchema schema = StepSchema::ap242;
  /// ISO 8601 local time for the header ("2024-01-31T12:00:00"). DEFAULT: now. With a fixed stamp
  /// equal pieces give equal files.
  std::string timeStamp;
};

/// The piece as a STEP file (ISO 10303-21 clear text): one assembly with a placed instance a part,
/// in mm. Parts that are alike, also after turning end for end or over, share one shape. A product
/// is called by part number and label, an instance by its label, both in ASCII (umlauts and
/// accents are spelt out, other letters become `_`). Colours are those of the materials.
///
/// `solids` by PartId, each in its part's frame. May be called from several threads; the calls
/// wait for each other, since the library's settings are global. Errors: libraryFailure.
[[nodiscard]] Result<std::string> stepText(const joinery::Piece& piece,
                                           const std::vector<kernel::Solid>& solids,
                                           const StepOptions& options = {});

}  // namespace dryfit::exporting

#pragma once

#include "joinery/file/flat_document.h"
#include "joinery/file/json_document.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// Puts hardware of one name into one row, whichever copies of sub-assemblies need it: counts are
/// added, what it holds is joined. Error: badModel for two prices, or a count that is none.
[[nodiscard]] Result<void> joinHardwareRows(JsonNode& hardware, const AuthoredPlaces& authored);

}  // namespace dryfit::joinery

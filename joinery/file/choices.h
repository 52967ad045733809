#pragma once

#include "joinery/file/json_document.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// True where a document has words to choose from.
[[nodiscard]] bool hasChoices(const JsonNode& document);

/// Puts numbers in place of the words that dimensions offer ("with" becomes 1), and the chosen word
/// in place of {"choice": "wood"}. Error: badModel for a word that is not offered, unknownName for
/// a choice that is not there.
[[nodiscard]] Result<void> resolveChoices(JsonNode& document);

}  // namespace dryfit::joinery

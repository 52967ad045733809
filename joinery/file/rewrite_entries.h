#pragma once

#include "joinery/file/json_document.h"
#include "joinery/file/scope.h"

namespace dryfit::joinery {

// Entries of a description in the names of the piece. What is not of the right form is left for
// the reader of the model.

/// A part, in the coordinates of the piece. Its group and label are left as they are.
void rewritePart(JsonNode& part, const Scope& scope);
/// A turn, in the coordinates of the description. May be null.
void rewriteTurn(JsonNode* turn, const Scope& scope);
/// A use within a description; its coordinates stay those of the description.
void rewriteUse(JsonNode& use, const Scope& scope);
/// Names of parts: one, or a list. May be null.
void renameParts(JsonNode* node, const Scope& scope);

}  // namespace dryfit::joinery

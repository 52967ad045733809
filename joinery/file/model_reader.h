#pragma once

#include "joinery/file/json_document.h"
#include "joinery/model/model.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// The model that a document describes. Looks at form and names: keys, types, units, syntax of
/// expressions, parts, materials, roles and parameters that are referred to. Sizes are worked out
/// later, by placeParts.
/// Errors: badModel, badExpression, badMeasurement, with the place: "parts.top_rail.width.size".
[[nodiscard]] Result<Model> readModel(const JsonNode& document);

}  // namespace dryfit::joinery

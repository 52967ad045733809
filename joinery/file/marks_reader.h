#pragma once

#include "joinery/file/json_place.h"
#include "joinery/model/model.h"

namespace dryfit::joinery {

/// Reads "marks" against the parts that the model has so far. Sizes are plain numbers in the file's
/// unit. A joint that a mark names may be gone from the design: that is for the check to tell.
void readMarks(const JsonPlace& root, Model& model);

/// A mark as the file holds it, to 1e-7 mm.
[[nodiscard]] JsonNode markNode(const Mark& mark, Unit unit);

}  // namespace dryfit::joinery

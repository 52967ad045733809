#pragma once

#include "joinery/file/json_place.h"
#include "joinery/model/model.h"

namespace dryfit::joinery {

/// Reads "tapers" against the parts that the model has so far.
void readTapers(const JsonPlace& root, Model& model);

}  // namespace dryfit::joinery

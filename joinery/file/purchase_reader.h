#pragma once

#include "joinery/file/json_place.h"
#include "joinery/model/model.h"

namespace dryfit::joinery {

// What a model says on buying. Each reports what is wrong at its place.

/// The key "cutters": the widths of the shop's chisels and cutters.
void readCutters(const JsonPlace& root, Model& model);
/// The keys "currency", "edging", "hardware" and "finish" of the whole model.
void readPurchase(const JsonPlace& root, Model& model);
/// The key "holds" of each entry of "hardware". REQUIRES: readPurchase done and all parts read.
void readHolds(const JsonPlace& root, Model& model);
/// The keys "rough" and "edging" of a material. REQUIRES: its kind is read, and readPurchase done.
void readMaterialPurchase(const JsonPlace& place, const Model& model, Material& material);
/// The keys "match", "spare" and "edging" of a part. REQUIRES: its spans and material are read.
void readPartPurchase(const JsonPlace& place, const Model& model, Part& part);

}  // namespace dryfit::joinery

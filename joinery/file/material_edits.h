#pragma once

#include <string>

#include "joinery/file/model_file.h"

namespace dryfit::joinery {

/// A material to be added: "solid" timber or a "sheet".
struct NewMaterial {
  std::string name, kind, species, thickness;
};

/// Adds a material behind the others. Errors: badModel (a name that is taken or none),
/// badExpression, unknownName (a species).
[[nodiscard]] Result<void> addMaterial(ModelFile& file, const NewMaterial& material);

/// Gives a material a new entry under `key` ("species", "thickness", "note", "edging"); an empty
/// text takes it away. A wood that is asked for is the answer from then on. Errors: unknownName,
/// badModel, badExpression.
[[nodiscard]] Result<void> setMaterialText(ModelFile& file, const std::string& material,
                                           const std::string& key, const std::string& text);
/// What the author wrote there; empty where nothing stands, or a choice.
[[nodiscard]] std::string materialText(const ModelFile& file, const std::string& material,
                                       const std::string& key);

/// A new named number of the piece. Errors: badModel, badExpression.
[[nodiscard]] Result<void> addDimension(ModelFile& file, const std::string& name,
                                        const std::string& value);

}  // namespace dryfit::joinery

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "export/step/wood_colour.h"
#include "kernel/geometry.h"
#include "kernel/result.h"
#include "kernel/solid.h"

namespace dryfit::testing {

/// A placed part as an exchange file gives it.
struct ReadInstance {
  std::string name;     ///< of the instance
  std::string product;  ///< of the shape
  kernel::Frame frame;
  kernel::Solid solid;  ///< where it stands
  std::optional<exporting::Colour> colour;
};

/// A STEP assembly read back.
struct ReadStep {
  std::string assembly;  ///< its name
  std::vector<ReadInstance> instances;
  int products = 0;  ///< distinct shapes
};

/// Reads the text of a STEP file. Errors: libraryFailure, invalidSolid.
[[nodiscard]] Result<ReadStep> readStep(const std::string& text);

}  // namespace dryfit::testing

#pragma once

#include <string>
#include <vector>

#include "joinery/piece/piece.h"
#include "kernel/result.h"
#include "kernel/solid.h"

namespace dryfit::exporting {

/// One place in which a shape stands.
struct StepInstance {
  std::string name;
  kernel::Frame frame;  ///< the product's frame to the piece
};

/// One shape with all its places.
struct StepProduct {
  std::string name;  ///< part number and label
  std::string material;
  joinery::PartId part;  ///< whose solid it is
  std::vector<StepInstance> instances;
};

/// The piece as shapes and places, in the order of the part numbers. Parts of one group that are
/// the same solid, as they lie or after a half turn, share a product; sharing is proved by the
/// solids' shared volume, not taken from the grouping alone. Names are in ASCII.
/// Error: libraryFailure.
[[nodiscard]] Result<std::vector<StepProduct>> stepProducts(
    const joinery::Piece& piece, const std::vector<kernel::Solid>& solids);

}  // namespace dryfit::exporting

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "joinery/file/assemblies.h"
#include "joinery/file/flat_document.h"
#include "joinery/file/json_document.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// A document in which every part and joint stands for itself: what depends on a condition is there
/// or left out, what is repeated is there as often as its count says, sub-assemblies are written
/// out.
struct Unfolded {
  JsonNode document;
  AuthoredPlaces authored;            ///< only of what is repeated or of a sub-assembly
  std::vector<std::string> setAside;  ///< parts that are measured or marked and left out, sorted

  /// The place as its author knows it, with the copy: "parts.shelf.width (copy 2)",
  /// "assemblies.drawer.parts.front (in drawer_2)".
  [[nodiscard]] std::string authoredPlace(const std::string& place) const;
};

/// Unfolds the uses of sub-assemblies, and the `when`, `repeat` and `mirror` of parts, joints and
/// hardware. None where a document has nothing of the kind and stands for itself. Forms that are
/// wrong otherwise are left for the reader of the model. Errors: badModel, badExpression,
/// unknownName, cycle, countUnfit.
[[nodiscard]] Result<std::optional<Unfolded>> unfold(const JsonNode& document,
                                                     const AssemblyFiles& files = {});

}  // namespace dryfit::joinery

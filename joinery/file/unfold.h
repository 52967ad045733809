#pragma once

#include <map>
#include <optional>
#include <string>

#include "joinery/file/json_document.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// A document in which every part and joint stands for itself: what depends on a condition is there
/// or left out, what is repeated is there as often as its count says.
struct Unfolded {
  JsonNode document;
  /// Where its author wrote what is at a place of the unfolded document: "parts.shelf_2" is from
  /// "parts.shelf". Only of what is repeated.
  std::map<std::string, std::string> authored;

  /// The place as its author knows it, with the copy: "parts.shelf.width (copy 2)".
  [[nodiscard]] std::string authoredPlace(const std::string& place) const;
};

/// Unfolds the `when` and `repeat` of parts, joints and hardware. None where a document has nothing
/// of the kind and stands for itself. Forms that are wrong otherwise are left for the reader of the
/// model. Errors: badModel, badExpression, unknownName, cycle, countUnfit.
[[nodiscard]] Result<std::optional<Unfolded>> unfold(const JsonNode& document);

/// No part is there more often than this.
inline constexpr int kMostCopies = 1000;

}  // namespace dryfit::joinery

#pragma once

#include <string>
#include <vector>

#include "joinery/file/copies.h"
#include "joinery/file/json_document.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// One copy of a use: the entry as it counts for this copy.
struct UseCopy {
  std::string name;  ///< "drawer_2"; the use's own where it is not repeated
  bool repeated = false;
  std::string words;                 ///< for people: "in drawer_2"
  JsonNode entry;                    ///< without `repeat`
  std::vector<MirrorPlane> mirrors;  ///< in the coordinates of what the use stands in
  bool labelled = false;             ///< its label is its own, or it is the only copy: no number
};

/// The copies of one use: as its `repeat` says, or one for each opening of a list. A list in place
/// of a label, opening, value, neighbour or material gives each copy its own. Errors: badModel,
/// countUnfit, and those of numbers.
[[nodiscard]] Result<std::vector<UseCopy>> copiesOfUse(const std::string& name,
                                                       const JsonNode& entry, FixedNumbers& numbers,
                                                       const std::string& place);

/// True where the use stands for numbered copies.
[[nodiscard]] bool isRepeated(const JsonNode& use);

}  // namespace dryfit::joinery

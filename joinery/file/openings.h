#pragma once

#include <string>
#include <vector>

#include "joinery/file/json_document.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// One face or size of an opening as a hidden dimension.
struct OpeningDimension {
  std::string name;   ///< "drawer_2.opening.left"
  std::string text;   ///< an expression
  std::string place;  ///< where the use says it
};

/// The faces and sizes of an opening that a use gives along some of the axes, each span by two of
/// from, to, size and centre. `prefix` is the copy's name and a dot; `opening` may be null. Error:
/// badModel.
[[nodiscard]] Result<std::vector<OpeningDimension>> openingDimensions(const JsonNode* opening,
                                                                      const std::string& prefix,
                                                                      const std::string& place);

/// Whether the opening is given along every axis along which the description names it. Error:
/// badModel.
[[nodiscard]] Result<void> checkOpening(const JsonNode* opening, const JsonNode& description,
                                        const std::string& place);

}  // namespace dryfit::joinery

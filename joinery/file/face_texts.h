#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "joinery/file/json_document.h"

namespace dryfit::joinery {

/// What a part's own spans say of one of its faces or sizes ("top", "length"), as an expression in
/// brackets where it needs them. `step` is the name of the part or of one of its copies: "side_2".
/// None where only numbers would say it: of a copy whose count is an expression, or mirrored
/// across two planes.
[[nodiscard]] std::optional<std::string> faceText(const JsonNode& part, std::string_view step,
                                                  const std::string& face);

}  // namespace dryfit::joinery

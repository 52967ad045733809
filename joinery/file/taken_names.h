#pragma once

#include <set>
#include <string>

#include "joinery/file/json_document.h"

namespace dryfit::joinery {

/// Every name that a document, or a description, gives to something of its own.
[[nodiscard]] std::set<std::string> takenNames(const JsonNode& node);

}  // namespace dryfit::joinery

#pragma once

#include <functional>
#include <string>

#include "joinery/base/face.h"
#include "joinery/file/json_document.h"

namespace dryfit::joinery {

/// Visits what an entry (a part, a use, a group) says of places along the axes: ends and centres of
/// spans and openings, planes of mirrors, axes of turns. `end` is "from", "to" or empty.
using CoordinateVisitor = std::function<void(JsonNode& text, Axis axis, const std::string& end)>;
void visitCoordinates(JsonNode& entry, const CoordinateVisitor& visit);

}  // namespace dryfit::joinery

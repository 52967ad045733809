#pragma once

#include <functional>
#include <string>

#include "joinery/file/json_document.h"

namespace dryfit::joinery {

/// What is done with the texts of an author's document that name things.
struct NameVisitor {
  /// An expression or condition, and where it stands: "parts.rail.length.from".
  std::function<void(JsonNode& text, const std::string& place)> expression;
  /// A text that is the name of a part: of a role, of what hardware holds, of a neighbour.
  std::function<void(JsonNode& text, const std::string& place)> part;
};

/// Visits all texts in which the part `name` of the piece may be named. Descriptions of
/// sub-assemblies that have a name of their own like it are left out: it means theirs there.
void visitNames(JsonNode& document, const std::string& name, const NameVisitor& visitor);

/// True where a word of an expression, or the name of a part, is that of `name`, one of its faces
/// or sizes, or, where it is `repeated`, one of its copies: "shelf", "shelf.top", "shelf_2.top",
/// "shelf_copy.top".
[[nodiscard]] bool isOf(const std::string& word, const std::string& name, bool repeated);

}  // namespace dryfit::joinery

#pragma once

#include <functional>
#include <string>

#include "joinery/file/json_document.h"

namespace dryfit::joinery {

/// What is done with the texts of an author's document that name things. `scope` is the description
/// in which they stand, empty in the piece.
struct NameVisitor {
  using Visit =
      std::function<void(JsonNode& text, const std::string& place, const std::string& scope)>;
  /// An expression or condition, and where it stands: "parts.rail.length.from".
  Visit expression;
  /// A text that is the name of a part: of a role, of what hardware holds, of a neighbour.
  Visit part;
};

/// Visits all texts of a document, and of the descriptions that it holds, in which parts may be
/// named.
void visitNames(JsonNode& document, const NameVisitor& visitor);

/// True where a word of an expression, or the name of a part, is that of `name`, one of its faces
/// or sizes, or, where it is `repeated`, one of its copies: "shelf", "shelf.top", "shelf_2.top",
/// "shelf_copy.top".
[[nodiscard]] bool isOf(const std::string& word, const std::string& name, bool repeated);

}  // namespace dryfit::joinery

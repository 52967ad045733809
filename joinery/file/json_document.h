#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "kernel/result.h"

namespace dryfit::joinery {

struct JsonMember;

/// A JSON value as its author wrote it: keys in their order, numbers as text.
struct JsonNode {
  enum class Type { null, boolean, number, text, list, object };
  Type type = Type::null;
  std::string text;                 ///< of text, or of a number: "62", "60.80"
  bool truth = false;               ///< of a boolean
  std::vector<JsonMember> members;  ///< of an object or a list; keys are empty in a list

  [[nodiscard]] static JsonNode ofText(std::string text);
  [[nodiscard]] static JsonNode ofNumber(std::string text);
  [[nodiscard]] static JsonNode ofObject();

  [[nodiscard]] bool is(Type t) const { return type == t; }
  /// The member with this key, or null. O(members).
  [[nodiscard]] const JsonNode* find(std::string_view key) const;
  [[nodiscard]] JsonNode* find(std::string_view key);
  /// The member with this key, made as an empty object behind the others where it is missing.
  [[nodiscard]] JsonNode& objectAt(const std::string& key);
  void set(const std::string& key, JsonNode value);
  void erase(std::string_view key);
  /// The same text when written.
  [[nodiscard]] bool operator==(const JsonNode& other) const;
};

struct JsonMember {
  std::string key;
  JsonNode value;
  [[nodiscard]] bool operator==(const JsonMember& other) const = default;
};

inline bool JsonNode::operator==(const JsonNode& other) const {
  return type == other.type && text == other.text && truth == other.truth &&
         members == other.members;
}

/// "text", "a number", "an object", ...
[[nodiscard]] std::string_view nameOf(JsonNode::Type type);

/// Reads JSON (RFC 8259). Errors: badModel, with line and column for what is not JSON, with the
/// place inside for keys given twice and for nesting beyond 16 levels.
[[nodiscard]] Result<JsonNode> parseJson(const std::string& text);

/// The document as text: lists of a model one entry a line, whatever else fits within 100 columns
/// on one line; inside what does not fit, words, numbers and lists share lines up to that column.
/// Numbers stay as they were written. Law: jsonText(*parseJson(jsonText(n))) ==
/// jsonText(n).
[[nodiscard]] std::string jsonText(const JsonNode& document);

}  // namespace dryfit::joinery

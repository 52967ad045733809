#include "joinery/file/json_document.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <optional>
#include <unordered_set>

#include "joinery/base/plain_text.h"

namespace dryfit::joinery {
namespace {

constexpr std::size_t kDeepest = 16;

/// Builds the document from the library's events and stops at the first thing that is wrong.
/// The library's own tree would keep the last of two equal keys without a word.
class DocumentBuilder {
 public:
  using number_integer_t = nlohmann::json::number_integer_t;
  using number_unsigned_t = nlohmann::json::number_unsigned_t;
  using number_float_t = nlohmann::json::number_float_t;
  using string_t = std::string;
  using binary_t = nlohmann::json::binary_t;

  explicit DocumentBuilder(const std::string& source) : source_(source) {}

  bool null() { return leaf({}); }
  bool boolean(bool truth) {
    JsonNode node;
    node.type = JsonNode::Type::boolean;
    node.truth = truth;
    return leaf(std::move(node));
  }
  bool number_integer(number_integer_t value) {
    return leaf(JsonNode::ofNumber(std::to_string(value)));
  }
  bool number_unsigned(number_unsigned_t value) {
    return leaf(JsonNode::ofNumber(std::to_string(value)));
  }
  bool number_float(number_float_t, const string_t& written) {
    return leaf(JsonNode::ofNumber(written));
  }
  bool string(string_t& text) { return leaf(JsonNode::ofText(std::move(text))); }
  bool binary(binary_t&) { return false; }

  bool start_object(std::size_t) { return open(JsonNode::Type::object); }
  bool start_array(std::size_t) { return open(JsonNode::Type::list); }
  bool end_object() { return close(); }
  bool end_array() { return close(); }

  bool key(string_t& key) {
    Level& level = open_.back();
    level.key = key;
    if (level.keys.insert(key).second) return true;
    error_ = Error{ErrorCode::badModel, "this key is given twice", path(), "keep one of the two"};
    return false;
  }

  bool parse_error(std::size_t position, const std::string& token,
                   const nlohmann::detail::exception& exception) {
    const bool tooLarge = exception.id == 406;
    const std::string_view before = std::string_view(source_).substr(
        0, std::min(position > 0 ? position - 1 : 0, source_.size()));
    const auto line = 1 + std::count(before.begin(), before.end(), '\n');
    const std::size_t start = before.rfind('\n') + 1;  // npos + 1 is 0: the first line
    const std::string where =
        "line " + std::to_string(line) + ", column " + std::to_string(before.size() - start + 1);
    if (tooLarge) {
      error_ =
          Error{ErrorCode::badModel, inQuotes(token) + " is too large for a number", where, ""};
    } else {
      const bool ended = position > source_.size();
      error_ = Error{
          ErrorCode::badModel,
          ended ? "the text ends too early to be JSON" : "this is not JSON: " + inQuotes(token),
          where, "look for a missing or extra comma, quote or bracket there"};
    }
    return false;
  }

  [[nodiscard]] Result<JsonNode> take() {
    if (error_) return tl::unexpected(*error_);
    return std::move(root_);
  }

 private:
  struct Level {
    JsonNode node;
    std::string key;
    std::unordered_set<std::string> keys;
  };

  bool open(JsonNode::Type type) {
    if (open_.size() == kDeepest) {
      error_ = Error{ErrorCode::badModel, "brackets are nested deeper than any model needs", path(),
                     "see models/README.md for the form of a model"};
      return false;
    }
    open_.emplace_back();
    open_.back().node.type = type;
    return true;
  }
  bool close() {
    JsonNode node = std::move(open_.back().node);
    open_.pop_back();
    return leaf(std::move(node));
  }
  bool leaf(JsonNode node) {
    if (open_.empty()) {
      root_ = std::move(node);
    } else {
      open_.back().node.members.push_back({std::move(open_.back().key), std::move(node)});
      open_.back().key.clear();
    }
    return true;
  }
  [[nodiscard]] std::string path() const {
    std::string text;
    for (const Level& level : open_) {
      if (level.key.empty()) continue;
      if (!text.empty()) text += '.';
      text += oneLine(level.key);
    }
    return text;
  }

  const std::string& source_;
  std::vector<Level> open_;
  JsonNode root_;
  std::optional<Error> error_;
};

}  // namespace

JsonNode JsonNode::ofText(std::string text) {
  JsonNode node;
  node.type = Type::text;
  node.text = std::move(text);
  return node;
}

JsonNode JsonNode::ofNumber(std::string text) {
  JsonNode node;
  node.type = Type::number;
  node.text = std::move(text);
  return node;
}

JsonNode JsonNode::ofObject() {
  JsonNode node;
  node.type = Type::object;
  return node;
}

const JsonNode* JsonNode::find(std::string_view key) const {
  const auto it = std::find_if(members.begin(), members.end(),
                               [&](const JsonMember& m) { return m.key == key; });
  return it == members.end() ? nullptr : &it->value;
}

JsonNode* JsonNode::find(std::string_view key) {
  const auto it = std::find_if(members.begin(), members.end(),
                               [&](const JsonMember& m) { return m.key == key; });
  return it == members.end() ? nullptr : &it->value;
}

JsonNode& JsonNode::objectAt(const std::string& key) {
  if (JsonNode* found = find(key)) return *found;
  members.push_back({key, ofObject()});
  return members.back().value;
}

void JsonNode::set(const std::string& key, JsonNode value) {
  if (JsonNode* found = find(key)) {
    *found = std::move(value);
  } else {
    members.push_back({key, std::move(value)});
  }
}

void JsonNode::erase(std::string_view key) {
  std::erase_if(members, [&](const JsonMember& m) { return m.key == key; });
}

std::string_view nameOf(JsonNode::Type type) {
  switch (type) {
    case JsonNode::Type::null:
      return "null";
    case JsonNode::Type::boolean:
      return "true or false";
    case JsonNode::Type::number:
      return "a number";
    case JsonNode::Type::text:
      return "text";
    case JsonNode::Type::list:
      return "a list";
    case JsonNode::Type::object:
      return "an object";
  }
  return "";
}

Result<JsonNode> parseJson(const std::string& text) {
  DocumentBuilder builder(text);
  try {
    const bool whole = nlohmann::json::sax_parse(text, &builder);
    Result<JsonNode> document = builder.take();
    if (!whole && document) return fail(ErrorCode::badModel, "this is not JSON");
    return document;
  } catch (const nlohmann::json::exception& e) {
    return fail(ErrorCode::badModel, "this is not JSON: " + inQuotes(e.what()));
  }
}

}  // namespace dryfit::joinery

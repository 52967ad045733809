#include "joinery/file/json_place.h"

#include <algorithm>

#include "joinery/base/plain_text.h"
#include "joinery/formula/expression.h"

namespace dryfit::joinery {
namespace {

/// Whoever must choose has to see the choices, but not more than one reads.
std::string joined(const std::vector<std::string>& words) {
  constexpr std::size_t kMost = 40;
  std::string text;
  for (std::size_t i = 0; i < std::min(words.size(), kMost); ++i) {
    text += (text.empty() ? "" : ", ") + words[i];
  }
  if (words.size() > kMost) text += " and " + std::to_string(words.size() - kMost) + " more";
  return text;
}

}  // namespace

void FirstError::report(Error error) {
  if (!error_) error_ = std::move(error);
}

void JsonPlace::wrong(std::string what, std::string mend, ErrorCode code) const {
  errors_->report({code, std::move(what), path_, std::move(mend)});
}

void JsonPlace::unknown(const std::string& what, const std::string& name,
                        const std::vector<std::string>& known, ErrorCode code) const {
  const std::string mend = nearestMend(name, known);
  if (!mend.empty()) {
    wrong(what, mend, code);
  } else {
    wrong(what, known.empty() ? "there are none here" : "known here: " + joined(known), code);
  }
}

bool JsonPlace::isObject() const {
  if (node_->is(JsonNode::Type::object)) return true;
  wrong("an object { } is needed here, not " + std::string(nameOf(node_->type)));
  return false;
}

bool JsonPlace::isObject(const std::vector<std::string>& keys) const {
  if (!isObject()) return false;
  for (const auto& [key, place] : members()) {
    if (std::find(keys.begin(), keys.end(), key) != keys.end()) continue;
    place.unknown("unknown key " + inQuotes(key), key, keys);
    return false;
  }
  return true;
}

std::vector<std::pair<std::string, JsonPlace>> JsonPlace::members() const {
  std::vector<std::pair<std::string, JsonPlace>> places;
  places.reserve(node_->members.size());
  std::size_t index = 0;
  for (const JsonMember& m : node_->members) {
    const bool list = node_->is(JsonNode::Type::list);
    const std::string step =
        list ? "[" + std::to_string(index++) + "]" : (path_.empty() ? "" : ".") + oneLine(m.key);
    places.emplace_back(m.key, JsonPlace(m.value, path_ + step, *errors_));
  }
  return places;
}

std::optional<JsonPlace> JsonPlace::find(const std::string& key) const {
  const JsonNode* node = node_->find(key);
  if (node == nullptr) return std::nullopt;
  return JsonPlace(*node, path_.empty() ? key : path_ + "." + key, *errors_);
}

std::optional<JsonPlace> JsonPlace::need(const std::string& key) const {
  std::optional<JsonPlace> place = find(key);
  if (!place) wrong("the key " + inQuotes(key) + " is missing");
  return place;
}

std::string JsonPlace::text() const {
  if (node_->is(JsonNode::Type::text)) return node_->text;
  wrong("text in quotes is needed here, not " + std::string(nameOf(node_->type)));
  return {};
}

std::string JsonPlace::line() const {
  std::string line = text();
  const auto isControl = [](unsigned char c) { return c < 0x20 || c == 0x7F; };
  if (std::any_of(line.begin(), line.end(), isControl)) {
    wrong("there is a control character or a line break in " + inQuotes(line),
          "write plain text on one line");
  }
  return line;
}

std::size_t JsonPlace::wordOf(const std::vector<std::string>& words) const {
  if (!node_->is(JsonNode::Type::text)) {
    wrong("one of " + joined(words) + " is needed here, not " + std::string(nameOf(node_->type)));
    return 0;
  }
  const auto it = std::find(words.begin(), words.end(), node_->text);
  if (it != words.end()) return static_cast<std::size_t>(it - words.begin());
  wrong(inQuotes(node_->text) + " is not known here", "use one of " + joined(words));
  return 0;
}

Expression JsonPlace::expression() const {
  const bool number = node_->is(JsonNode::Type::number);
  if (!number && !node_->is(JsonNode::Type::text)) {
    wrong("a number or an expression in quotes is needed here, not " +
          std::string(nameOf(node_->type)));
    return {};
  }
  Expression expression{node_->text, number};
  if (const auto names = namesIn(expression); !names) {
    wrong(names.error().what, names.error().mend, names.error().code);
  }
  return expression;
}

}  // namespace dryfit::joinery

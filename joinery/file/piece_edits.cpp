#include "joinery/file/piece_edits.h"

#include "joinery/base/plain_text.h"
#include "joinery/file/authored_part.h"

namespace dryfit::joinery {
namespace {

constexpr auto kHardware = "hardware";

std::string textAt(const JsonNode* node) {
  if (node == nullptr || node->is(JsonNode::Type::list) || node->is(JsonNode::Type::object)) {
    return {};
  }
  return node->text;
}

const JsonNode* itemOf(const ModelFile& file, const std::string& item) {
  const JsonNode* list = file.document().find(kHardware);
  return list == nullptr ? nullptr : list->find(item);
}

tl::unexpected<Error> noItem(const std::string& item) {
  return fail(ErrorCode::unknownName, "there is no item " + inQuotes(item),
              std::string(kHardware) + "." + oneLine(item));
}

}  // namespace

std::string pieceText(const ModelFile& file, const std::string& section, const std::string& key) {
  const JsonNode* list = file.document().find(section);
  return list == nullptr ? std::string() : textAt(list->find(key));
}

Result<void> setPieceText(ModelFile& file, const std::string& section, const std::string& key,
                          const std::string& text) {
  return file.change([&](JsonNode& document) -> Result<void> {
    JsonNode& list = document.objectAt(section);
    if (trimmed(text).empty()) {
      list.erase(key);
    } else {
      list.set(key, authoredNode(trimmed(text)));
    }
    if (list.members.empty()) document.erase(section);
    return {};
  });
}

std::vector<std::string> hardwareNames(const ModelFile& file) {
  std::vector<std::string> names;
  const JsonNode* list = file.document().find(kHardware);
  if (list == nullptr) return names;
  for (const JsonMember& item : list->members) names.push_back(item.key);
  return names;
}

std::string hardwareText(const ModelFile& file, const std::string& item, const std::string& key) {
  const JsonNode* node = itemOf(file, item);
  // A bare number is how many there are.
  if (node != nullptr && !node->is(JsonNode::Type::object)) {
    return key == "count" ? textAt(node) : std::string();
  }
  return node == nullptr ? std::string() : textAt(node->find(key));
}

Result<void> addHardware(ModelFile& file, const std::string& item) {
  if (trimmed(item).empty() || itemOf(file, trimmed(item)) != nullptr) {
    return fail(ErrorCode::badModel,
                inQuotes(item) + (trimmed(item).empty() ? " is no name" : " is there already"),
                kHardware, "choose another name, such as butt_hinge_60");
  }
  return file.change([&](JsonNode& document) -> Result<void> {
    JsonNode node = JsonNode::ofObject();
    node.set("count", JsonNode::ofNumber("1"));
    document.objectAt(kHardware).set(trimmed(item), std::move(node));
    return {};
  });
}

Result<void> setHardware(ModelFile& file, const std::string& item, const std::string& key,
                         const std::string& text) {
  if (itemOf(file, item) == nullptr) return noItem(item);
  return file.change([&](JsonNode& document) -> Result<void> {
    JsonNode* node = document.find(kHardware)->find(item);
    if (!node->is(JsonNode::Type::object)) {
      JsonNode whole = JsonNode::ofObject();
      whole.set("count", *node);
      *node = std::move(whole);
    }
    if (trimmed(text).empty()) {
      node->erase(key);
    } else {
      node->set(key, key == "note" ? JsonNode::ofText(trimmed(text)) : authoredNode(trimmed(text)));
    }
    return {};
  });
}

Result<void> eraseHardware(ModelFile& file, const std::string& item) {
  if (itemOf(file, item) == nullptr) return noItem(item);
  return file.change([&](JsonNode& document) -> Result<void> {
    JsonNode* list = document.find(kHardware);
    list->erase(item);
    if (list->members.empty()) document.erase(kHardware);
    return {};
  });
}

}  // namespace dryfit::joinery

#include "joinery/base/plain_text.h"
#include "joinery/file/authored_part.h"
#include "joinery/file/part_edits.h"

namespace dryfit::joinery {
namespace {

JsonNode repeatNode(const NewRepeat& repeat) {
  JsonNode node = JsonNode::ofObject();
  if (!trimmed(repeat.plane).empty()) {
    JsonNode planes = JsonNode::ofObject();
    planes.set(repeat.along, authoredNode(repeat.plane));
    node.set("mirrored", std::move(planes));
    return node;
  }
  if (trimmed(repeat.from).empty()) return authoredNode(repeat.count);
  JsonNode spread = JsonNode::ofObject();
  spread.set("along", JsonNode::ofText(repeat.along));
  spread.set("from", authoredNode(repeat.from));
  spread.set("to", authoredNode(repeat.to));
  node.set("count", authoredNode(repeat.count));
  node.set("spread", std::move(spread));
  return node;
}

/// The span of a part along an axis, or null.
JsonNode* spanAlong(JsonNode& part, const std::string& axis) {
  for (const char* key : {"length", "width", "thickness"}) {
    JsonNode* span = part.find(key);
    const JsonNode* along = span == nullptr ? nullptr : span->find("along");
    if (along != nullptr && along->text == axis) return span;
  }
  return nullptr;
}

}  // namespace

Result<void> repeatPart(ModelFile& file, const std::string& name, const NewRepeat& repeat) {
  const auto part = authored(file, name);
  if (!part) return tl::unexpected(part.error());
  return file.change([&](JsonNode& document) -> Result<void> {
    JsonNode& entry = *nodeAt(document, part->place());
    if (const JsonNode* old = entry.find("repeat")) {
      // What was spread has no place of its own.
      const JsonNode* spread = old->find("spread");
      const JsonNode* along = spread == nullptr ? nullptr : spread->find("along");
      JsonNode* span = along == nullptr ? nullptr : spanAlong(entry, along->text);
      if (span != nullptr && spread->find("from") != nullptr) {
        span->set("from", *spread->find("from"));
      }
      entry.erase("repeat");
    }
    if (trimmed(repeat.count).empty() && trimmed(repeat.plane).empty()) return {};
    if (!trimmed(repeat.from).empty()) {
      if (JsonNode* span = spanAlong(entry, repeat.along)) {
        for (const char* end : {"from", "to", "centre"}) {
          if (span->find("size") != nullptr || span == entry.find("thickness")) span->erase(end);
        }
      }
    }
    entry.set("repeat", repeatNode(repeat));
    return {};
  });
}

}  // namespace dryfit::joinery

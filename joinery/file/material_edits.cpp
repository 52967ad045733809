#include "joinery/file/material_edits.h"

#include "joinery/base/plain_text.h"
#include "joinery/file/authored_part.h"

namespace dryfit::joinery {
namespace {

tl::unexpected<Error> taken(const std::string& name, const std::string& section) {
  return fail(ErrorCode::badModel, inQuotes(name) + " is taken", section + "." + oneLine(name),
              "choose another name");
}

}  // namespace

Result<void> addMaterial(ModelFile& file, const NewMaterial& material) {
  return file.change([&](JsonNode& document) -> Result<void> {
    JsonNode& list = document.objectAt("materials");
    if (list.find(material.name) != nullptr) return taken(material.name, "materials");
    JsonNode node = JsonNode::ofObject();
    node.set("kind", JsonNode::ofText(material.kind));
    if (!trimmed(material.species).empty()) {
      node.set("species", JsonNode::ofText(trimmed(material.species)));
    }
    node.set("thickness", authoredNode(material.thickness));
    list.set(material.name, std::move(node));
    return {};
  });
}

Result<void> setMaterialText(ModelFile& file, const std::string& material, const std::string& key,
                             const std::string& text) {
  return file.change([&](JsonNode& document) -> Result<void> {
    JsonNode* node = nodeAt(document, "materials." + material);
    if (node == nullptr) {
      return fail(ErrorCode::unknownName, "there is no material " + inQuotes(material),
                  "materials." + oneLine(material));
    }
    JsonNode* old = node->find(key);
    const JsonNode* choice = old == nullptr ? nullptr : old->find("choice");
    if (choice != nullptr) {
      JsonNode* value = nodeAt(document, "choices." + choice->text + ".value");
      if (value != nullptr) *value = JsonNode::ofText(trimmed(text));
      return {};
    }
    if (trimmed(text).empty()) {
      node->erase(key);
    } else {
      node->set(key, key == "thickness" ? authoredNode(text) : JsonNode::ofText(trimmed(text)));
    }
    return {};
  });
}

std::string materialText(const ModelFile& file, const std::string& material,
                         const std::string& key) {
  const JsonNode* node = nodeAt(file.document(), "materials." + material);
  const JsonNode* text = node == nullptr ? nullptr : node->find(key);
  if (text == nullptr || text->is(JsonNode::Type::object)) return {};
  return text->text;
}

Result<void> addDimension(ModelFile& file, const std::string& name, const std::string& value) {
  return file.change([&](JsonNode& document) -> Result<void> {
    JsonNode& list = document.objectAt("dimensions");
    if (list.find(name) != nullptr) return taken(name, "dimensions");
    list.set(name, authoredNode(value));
    return {};
  });
}

}  // namespace dryfit::joinery

#include "joinery/file/part_edits.h"

#include <fmt/format.h>

#include <set>

#include "joinery/base/plain_text.h"
#include "joinery/file/authored_part.h"
#include "joinery/file/taken_names.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

JsonNode spanNode(const NewSpan& span) {
  JsonNode node = JsonNode::ofObject();
  node.set("along", JsonNode::ofText(span.along));
  const std::pair<const char*, const std::string*> all[] = {
      {"from", &span.from}, {"to", &span.to}, {"size", &span.size}, {"centre", &span.centre}};
  for (const auto& [key, text] : all) {
    if (!trimmed(*text).empty()) node.set(key, authoredNode(*text));
  }
  return node;
}

}  // namespace

std::string freeName(const ModelFile& file, const std::string& wish) {
  const std::set<std::string> taken = takenNames(file.document());
  std::string name = wish;
  for (int i = 2; taken.contains(name) || hasPart(file, name); ++i) {
    name = fmt::format("{}_{}", wish, i);
  }
  return name;
}

Result<void> addPart(ModelFile& file, const NewPart& part) {
  return file.change([&](JsonNode& document) -> Result<void> {
    if (takenNames(document).contains(part.name)) {
      return fail(ErrorCode::badModel, inQuotes(part.name) + " is taken", "parts." + part.name,
                  "choose another name");
    }
    JsonNode node = JsonNode::ofObject();
    node.set("material", JsonNode::ofText(part.material));
    node.set("length", spanNode(part.length));
    node.set("width", spanNode(part.width));
    node.set("thickness", spanNode(part.thickness));
    document.objectAt("parts").set(part.name, std::move(node));
    return {};
  });
}

Result<void> addJoint(ModelFile& file, const NewJoint& joint) {
  return file.change([&](JsonNode& document) -> Result<void> {
    JsonNode& list = document.objectAt("joints");
    if (list.find(joint.name) != nullptr) {
      return fail(ErrorCode::badModel, inQuotes(joint.name) + " is taken", "joints." + joint.name,
                  "choose another name");
    }
    JsonNode node = JsonNode::ofObject();
    node.set("kind", JsonNode::ofText(joint.kind));
    for (const auto& [role, parts] : joint.roles) {
      JsonNode names;
      names.type = Type::list;
      for (const std::string& part : parts) names.members.push_back({"", JsonNode::ofText(part)});
      node.set(role, parts.size() == 1 ? JsonNode::ofText(parts.front()) : std::move(names));
    }
    for (const auto& [key, text] : joint.numbers) {
      if (!trimmed(text).empty()) node.set(key, authoredNode(text));
    }
    list.set(joint.name, std::move(node));
    return {};
  });
}

Result<void> eraseJoint(ModelFile& file, const std::string& joint) {
  const std::string place = file.authoredPlace("joints", joint);
  return file.change([&](JsonNode& document) -> Result<void> {
    JsonNode* list = nodeAt(document, place.substr(0, place.rfind('.')));
    const std::string name = place.substr(place.rfind('.') + 1);
    if (list == nullptr || list->find(name) == nullptr) {
      return fail(ErrorCode::unknownName, "there is no joint " + inQuotes(joint), place);
    }
    list->erase(name);
    return {};
  });
}

Result<void> setPartText(ModelFile& file, const std::string& part, const std::string& key,
                         const std::string& text) {
  if (!hasPart(file, part)) return noPart(file, part);
  const std::string place = file.authoredPlace("parts", part);
  return file.change([&](JsonNode& document) -> Result<void> {
    JsonNode* node = nodeAt(document, place);
    if (node == nullptr) {
      return fail(ErrorCode::unknownName, "this is described in a file of its own", place,
                  "change it there");
    }
    if (trimmed(text).empty()) {
      node->erase(key);
    } else {
      node->set(key, JsonNode::ofText(trimmed(text)));
    }
    return {};
  });
}

Result<void> setPartSpan(ModelFile& file, const std::string& part, const std::string& span,
                         const std::string& key, const std::string& expression) {
  return setPartSpan(file, part, span, {{key, expression}});
}

Result<void> setPartSpan(ModelFile& file, const std::string& part, const std::string& span,
                         const std::vector<std::pair<std::string, std::string>>& entries) {
  if (!hasPart(file, part)) return noPart(file, part);
  const std::string place = file.authoredPlace("parts", part) + "." + span;
  return file.change([&](JsonNode& document) -> Result<void> {
    JsonNode* node = nodeAt(document, place);
    if (node == nullptr || !node->is(Type::object)) {
      return fail(ErrorCode::unknownName, "there is no such span to change", place);
    }
    for (const auto& [key, expression] : entries) {
      if (trimmed(expression).empty()) {
        node->erase(key);
      } else {
        node->set(key, authoredNode(expression));
      }
    }
    return {};
  });
}

std::string partText(const ModelFile& file, const std::string& part, const std::string& key) {
  const JsonNode* node = nodeAt(file.document(), file.authoredPlace("parts", part));
  const JsonNode* text = node == nullptr ? nullptr : node->find(key);
  return text == nullptr || text->is(Type::list) || text->is(Type::object) ? "" : text->text;
}

std::string spanText(const ModelFile& file, const std::string& part, const std::string& span,
                     const std::string& key) {
  const std::string place = file.authoredPlace("parts", part) + "." + span;
  const JsonNode* node = nodeAt(file.document(), place);
  const JsonNode* text = node == nullptr ? nullptr : node->find(key);
  return text == nullptr ? "" : text->text;
}

}  // namespace dryfit::joinery

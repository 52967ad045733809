#include <algorithm>

#include "joinery/base/plain_text.h"
#include "joinery/file/assembly_edits.h"
#include "joinery/file/authored_part.h"
#include "joinery/file/name_steps.h"
#include "joinery/file/taken_names.h"

namespace dryfit::joinery {
namespace {

std::vector<std::string> keysOf(const JsonNode* list) {
  std::vector<std::string> keys;
  if (list == nullptr) return keys;
  for (const JsonMember& member : list->members) keys.push_back(member.key);
  return keys;
}

const JsonNode* useNode(const ModelFile& file, const std::string& use) {
  const JsonNode* uses = file.document().find("uses");
  return uses == nullptr ? nullptr : uses->find(use);
}

tl::unexpected<Error> noUse(const ModelFile& file, const std::string& use) {
  return fail(ErrorCode::unknownName, "no sub-assembly stands in the piece as " + inQuotes(use),
              "uses." + oneLine(use), nearestMend(use, useNames(file)));
}

/// What is written as a number or text; empty for others.
std::string writtenText(const JsonNode* node) {
  if (node != nullptr && node->is(JsonNode::Type::object)) node = node->find("value");
  if (node == nullptr || node->is(JsonNode::Type::list)) return {};
  return node->text;
}

void setTexts(JsonNode& use, const char* section,
              const std::vector<std::pair<std::string, std::string>>& texts, bool names) {
  for (const auto& [key, text] : texts) {
    if (trimmed(text).empty()) continue;
    use.objectAt(section).set(key, names ? JsonNode::ofText(trimmed(text)) : authoredNode(text));
  }
}

}  // namespace

Result<void> putAssembly(ModelFile& file, const NewUse& use) {
  if (takenNames(file.document()).contains(use.name) && use.name != use.of) {
    return fail(ErrorCode::badModel, inQuotes(use.name) + " is taken", "uses." + oneLine(use.name),
                "choose another name");
  }
  if (useNode(file, use.name) != nullptr || hasPart(file, use.name)) {
    return fail(ErrorCode::badModel, inQuotes(use.name) + " is taken", "uses." + oneLine(use.name),
                "choose another name");
  }
  return file.change([&](JsonNode& document) -> Result<void> {
    JsonNode node = JsonNode::ofObject();
    node.set("of", JsonNode::ofText(use.of));
    for (const NewSpan& span : use.opening) {
      JsonNode& axis = node.objectAt("opening").objectAt(span.along);
      const std::pair<const char*, const std::string*> ends[] = {
          {"from", &span.from}, {"to", &span.to}, {"size", &span.size}, {"centre", &span.centre}};
      for (const auto& [key, text] : ends) {
        if (!trimmed(*text).empty()) axis.set(key, authoredNode(*text));
      }
      if (axis.members.empty()) node.find("opening")->erase(span.along);
    }
    setTexts(node, "neighbours", use.neighbours, true);
    setTexts(node, "values", use.values, false);
    document.objectAt("uses").set(use.name, std::move(node));
    return {};
  });
}

std::vector<std::string> assemblyNames(const ModelFile& file) {
  return keysOf(file.document().find("assemblies"));
}

std::vector<std::string> useNames(const ModelFile& file) {
  return keysOf(file.document().find("uses"));
}

std::vector<std::string> usesOf(const ModelFile& file, const std::string& of) {
  std::vector<std::string> names = useNames(file);
  std::erase_if(names, [&](const std::string& name) {
    const JsonNode* own = useNode(file, name)->find("of");
    return own == nullptr || own->text != of;
  });
  return names;
}

std::string useOfPart(const ModelFile& file, const std::string& part) {
  const auto steps = NameSteps(file.document()).of(part, "");
  const bool inUse = !steps.empty() && steps.front().kind == NameStep::Kind::use;
  return inUse ? steps.front().name : std::string();
}

Result<std::vector<UseValue>> valuesOf(const ModelFile& file, const std::string& use) {
  const JsonNode* node = useNode(file, use);
  if (node == nullptr) return noUse(file, use);
  const JsonNode* of = node->find("of");
  const JsonNode* home = of == nullptr ? nullptr : scopeNode(file.document(), of->text);
  if (home == nullptr) {
    return fail(ErrorCode::unknownName, inQuotes(use) + " is described in a file of its own",
                "uses." + oneLine(use), "change it there");
  }
  const JsonNode* given = node->find("values");
  std::vector<UseValue> all;
  for (const std::string& name : keysOf(home->find("dimensions"))) {
    const JsonNode* own = given == nullptr ? nullptr : given->find(name);
    const bool each = own != nullptr && own->is(JsonNode::Type::list);
    all.push_back(
        {name, writtenText(own), writtenText(home->find("dimensions")->find(name)), each});
  }
  return all;
}

Result<void> setUseValue(ModelFile& file, const std::string& use, const std::string& value,
                         const std::string& text) {
  if (useNode(file, use) == nullptr) return noUse(file, use);
  return file.change([&](JsonNode& document) -> Result<void> {
    JsonNode& node = *document.find("uses")->find(use);
    if (!trimmed(text).empty()) {
      node.objectAt("values").set(value, authoredNode(text));
      return {};
    }
    JsonNode* values = node.find("values");
    if (values == nullptr) return {};
    values->erase(value);
    if (values->members.empty()) node.erase("values");
    return {};
  });
}

}  // namespace dryfit::joinery

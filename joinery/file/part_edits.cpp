#include "joinery/file/part_edits.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "joinery/base/plain_text.h"
#include "joinery/file/authored_part.h"
#include "joinery/file/expression_words.h"
#include "joinery/file/name_uses.h"
#include "joinery/file/plain_values.h"
#include "joinery/formula/expression.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

/// Every name of the document that stands at its top level or in a description.
std::set<std::string> takenNames(const JsonNode& root) {
  std::set<std::string> names;
  for (const char* section : {"dimensions", "choices", "materials", "groups", "parts", "joints",
                              "uses", "assemblies", "hardware", "tapers"}) {
    const JsonNode* list = root.find(section);
    if (list == nullptr) continue;
    for (const JsonMember& member : list->members) names.insert(member.key);
  }
  return names;
}

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

/// Takes the names of a part out of a role, of holds, of a taper; true where nothing remains.
bool withoutPart(JsonNode& node, const Authored& part) {
  if (node.is(Type::text)) return isOf(node.text, part.name, part.repeated);
  std::erase_if(node.members, [&](const JsonMember& member) {
    return isOf(member.value.text, part.name, part.repeated);
  });
  return node.members.empty();
}

/// True where an expression names the part.
bool namesIt(const std::string& text, const Authored& part) {
  bool named = false;
  (void)withWords(text, [&](std::string_view word) {
    named = named || isOf(std::string(word), part.name, part.repeated);
    return std::string(word);
  });
  return named;
}

void dropRecords(JsonNode& document, const Authored& part, std::vector<std::string>* places) {
  JsonNode* measured = document.find("measured");
  JsonNode* lists[] = {measured == nullptr ? nullptr : measured->find("parts"),
                       document.find("marks")};
  const char* words[] = {"measured.parts.", "marks."};
  for (std::size_t i = 0; i < 2; ++i) {
    if (lists[i] == nullptr) continue;
    std::erase_if(lists[i]->members, [&](const JsonMember& record) {
      const bool its = isOf(record.key, part.name, part.repeated);
      if (its && places != nullptr) places->push_back(words[i] + record.key);
      return its;
    });
  }
}

/// Takes its name out of the lists in which it stands beside others.
void dropFromLists(JsonNode& document, const Authored& part) {
  const auto drop = [&](JsonNode* node) {
    if (node != nullptr && node->is(Type::list)) (void)withoutPart(*node, part);
  };
  for (const char* section : {"joints", "hardware", "tapers"}) {
    JsonNode* list = document.find(section);
    if (list == nullptr) continue;
    for (JsonMember& entry : list->members) {
      for (JsonMember& value : entry.value.members) drop(&value.value);
    }
    // Nothing is tapered by what names no part.
    if (section == std::string_view("tapers")) {
      std::erase_if(list->members, [](const JsonMember& taper) {
        const JsonNode* parts = taper.value.find("parts");
        return parts != nullptr && parts->is(Type::list) && parts->members.empty();
      });
    }
    for (JsonMember& goods : list->members) {
      const JsonNode* holds = goods.value.find("holds");
      if (holds != nullptr && holds->is(Type::list) && holds->members.empty()) {
        goods.value.erase("holds");
      }
    }
  }
}

/// The joints of the piece in whose roles the part stands alone.
std::vector<std::string> jointsOf(JsonNode& document, const Authored& part) {
  std::vector<std::string> names;
  const NameVisitor visitor{
      [](JsonNode&, const std::string&) {},
      [&](JsonNode& text, const std::string& place) {
        if (!place.starts_with("joints.")) return;
        if (!isOf(text.text, part.name, part.repeated)) return;
        const std::size_t end = place.find('.', 7);
        const std::string name = place.substr(7, end - 7);
        JsonNode* joint = document.find("joints")->find(name);
        JsonNode copy = *joint->find(place.substr(end + 1));
        if (withoutPart(copy, part) && std::ranges::find(names, name) == names.end()) {
          names.push_back(name);
        }
      }};
  visitNames(document, part.name, visitor);
  return names;
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

Result<HangsOn> hangingOn(const ModelFile& file, const std::string& name) {
  const auto part = authored(file, name);
  if (!part) return tl::unexpected(part.error());
  HangsOn hangs;
  JsonNode document = file.document();
  hangs.joints = jointsOf(document, *part);
  const auto isGone = [&](const std::string& place) {
    if (place.starts_with("parts." + part->name + ".")) return true;
    return std::ranges::any_of(hangs.joints, [&](const std::string& joint) {
      return place.starts_with("joints." + joint + ".");
    });
  };
  const NameVisitor visitor{[&](JsonNode& text, const std::string& place) {
                              if (!isGone(place) && namesIt(text.text, *part)) {
                                hangs.expressions.push_back(place);
                              }
                            },
                            [&](JsonNode& text, const std::string& place) {
                              if (isGone(place) || !isOf(text.text, part->name, part->repeated)) {
                                return;
                              }
                              hangs.records.push_back(place);
                            }};
  visitNames(document, part->name, visitor);
  dropRecords(document, *part, &hangs.records);
  return hangs;
}

Result<void> erasePart(ModelFile& file, const std::string& name,
                       const std::map<std::string, double>& values) {
  const auto part = authored(file, name);
  if (!part) return tl::unexpected(part.error());
  const double unit = millimetresIn(file.model().unit);
  return file.change([&](JsonNode& document) -> Result<void> {
    document.find("parts")->erase(part->name);
    for (const std::string& joint : jointsOf(document, *part)) {
      document.find("joints")->erase(joint);
    }
    std::string lost;
    const auto number = [&](std::string_view word) {
      std::string whole(word);
      if (!isOf(whole, part->name, part->repeated)) return whole;
      const auto value = values.find(whole);
      if (value == values.end()) lost = whole;
      const double mm = value == values.end() ? 0 : value->second;
      const double value6 = std::round(mm / unit * 1e6) / 1e6;
      return value6 < 0 ? fmt::format("(0 - {:.10g})", -value6) : fmt::format("{:.10g}", value6);
    };
    const NameVisitor visitor{[&](JsonNode& text, const std::string&) {
                                if (!namesIt(text.text, *part)) return;
                                text = authoredNode(withWords(text.text, number));
                              },
                              [&](JsonNode&, const std::string&) {}};
    visitNames(document, part->name, visitor);
    // What lies in lists last: a role that is one part alone went with its joint.
    dropFromLists(document, *part);
    dropRecords(document, *part, nullptr);
    if (lost.empty()) return {};
    return fail(ErrorCode::badModel, inQuotes(lost) + " has no number of its own", part->name,
                "give what hangs on it another number first");
  });
}

Result<void> renamePart(ModelFile& file, const std::string& old, const std::string& name) {
  const auto part = authored(file, old);
  if (!part) return tl::unexpected(part.error());
  if (part->name == name) return {};
  if (takenNames(file.document()).contains(name) || hasPart(file, name)) {
    return fail(ErrorCode::badModel, inQuotes(name) + " is taken", "parts." + part->name,
                "choose another name");
  }
  const auto renamed = [&](std::string_view word) {
    std::string whole(word);
    if (!isOf(whole, part->name, part->repeated)) return whole;
    return name + whole.substr(part->name.size());
  };
  return file.change([&](JsonNode& document) -> Result<void> {
    const NameVisitor visitor{
        [&](JsonNode& text, const std::string&) { text.text = withWords(text.text, renamed); },
        [&](JsonNode& text, const std::string&) { text.text = renamed(text.text); }};
    visitNames(document, part->name, visitor);
    JsonNode* measured = document.find("measured");
    for (JsonNode* list : {document.find("parts"), document.find("marks"),
                           measured == nullptr ? nullptr : measured->find("parts")}) {
      if (list == nullptr) continue;
      for (JsonMember& entry : list->members) entry.key = renamed(entry.key);
    }
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

#include "joinery/file/name_uses.h"

#include <algorithm>
#include <string_view>

#include "joinery/joints/joint_kinds.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

/// Walks the sections of a document or of a description.
class Walk {
 public:
  explicit Walk(const NameVisitor& visitor) : visitor_(visitor) {}

  void sections(JsonNode& root, const std::string& prefix) {
    each(root, prefix, "dimensions", [&](JsonNode& d, const std::string& place) {
      expression(&d, place);
      for (const char* key : {"value", "least", "greatest"}) inside(d, key, place);
    });
    each(root, prefix, "groups", [&](JsonNode& group, const std::string& place) {
      turn(group.find("turn"), place + ".turn");
    });
    each(root, prefix, "parts",
         [&](JsonNode& part, const std::string& place) { ofPart(part, place); });
    each(root, prefix, "uses", [&](JsonNode& use, const std::string& place) { ofUse(use, place); });
    each(root, prefix, "joints",
         [&](JsonNode& joint, const std::string& place) { ofJoint(joint, place); });
    each(root, prefix, "tapers", [&](JsonNode& taper, const std::string& place) {
      parts(taper.find("parts"), place + ".parts");
      for (const char* key : {"by", "from"}) inside(taper, key, place);
    });
    each(root, prefix, "hardware", [&](JsonNode& goods, const std::string& place) {
      parts(goods.find("holds"), place + ".holds");
      for (const char* key : {"count", "when"}) inside(goods, key, place);
    });
    if (JsonNode* brief = root.find("brief")) {
      for (const char* key : {"width", "height", "depth"}) inside(*brief, key, prefix + "brief");
    }
    each(root, prefix, "assemblies", [&](JsonNode& description, const std::string& place) {
      scope_ = place.substr(place.rfind('.') + 1);
      sections(description, place + ".");
      scope_.clear();
    });
  }

 private:
  template <class Visit>
  void each(JsonNode& root, const std::string& prefix, const char* section, const Visit& visit) {
    JsonNode* list = root.find(section);
    if (list == nullptr || !list->is(Type::object)) return;
    for (JsonMember& entry : list->members) {
      visit(entry.value, prefix + section + "." + entry.key);
    }
  }

  void expression(JsonNode* node, const std::string& place) {
    if (node != nullptr && node->is(Type::text)) visitor_.expression(*node, place, scope_);
  }
  void inside(JsonNode& node, const char* key, const std::string& place) {
    if (node.is(Type::object)) expression(node.find(key), place + "." + key);
  }
  /// All texts below a node.
  void expressions(JsonNode* node, const std::string& place) {
    if (node == nullptr) return;
    expression(node, place);
    for (JsonMember& member : node->members) {
      expressions(&member.value, member.key.empty() ? place : place + "." + member.key);
    }
  }
  void parts(JsonNode* node, const std::string& place) {
    if (node == nullptr) return;
    if (node->is(Type::text)) visitor_.part(*node, place, scope_);
    for (JsonMember& member : node->members) parts(&member.value, place);
  }
  void turn(JsonNode* node, const std::string& place) {
    if (node == nullptr) return;
    inside(*node, "angle", place);
    expressions(node->find("at"), place + ".at");
  }
  void repeat(JsonNode& entry, const std::string& place) {
    JsonNode* node = entry.find("repeat");
    if (node == nullptr) return;
    expression(node, place + ".repeat");
    inside(*node, "count", place + ".repeat");
    expressions(node->find("mirrored"), place + ".repeat.mirrored");
    if (JsonNode* spread = node->find("spread")) {
      for (const char* key : {"from", "to", "between"}) inside(*spread, key, place + ".repeat");
    }
  }
  void mirror(JsonNode& entry, const std::string& place) {
    // A text is an axis; planes are expressions.
    JsonNode* node = entry.find("mirror");
    if (node != nullptr && node->is(Type::object)) expressions(node, place + ".mirror");
  }

  void ofPart(JsonNode& part, const std::string& place) {
    for (const char* key : {"length", "width", "thickness"}) {
      JsonNode* span = part.find(key);
      if (span == nullptr) continue;
      for (const char* end : {"from", "to", "size", "centre"}) {
        inside(*span, end, place + "." + key);
      }
    }
    turn(part.find("turn"), place + ".turn");
    inside(part, "when", place);
    repeat(part, place);
    mirror(part, place);
  }

  void ofUse(JsonNode& use, const std::string& place) {
    inside(use, "when", place);
    repeat(use, place);
    mirror(use, place);
    turn(use.find("turn"), place + ".turn");
    expressionsOfOpening(use.find("opening"), place + ".opening");
    expressions(use.find("values"), place + ".values");
    parts(use.find("neighbours"), place + ".neighbours");
  }
  void expressionsOfOpening(JsonNode* opening, const std::string& place) {
    if (opening == nullptr) return;
    for (JsonMember& axis : opening->members) {
      if (axis.value.is(Type::object) && opening->is(Type::list)) {
        expressionsOfOpening(&axis.value, place);
      } else {
        expressions(&axis.value, place + "." + axis.key);
      }
    }
  }

  void ofJoint(JsonNode& joint, const std::string& place) {
    const JsonNode* name = joint.find("kind");
    const JointKind* kind = name == nullptr ? nullptr : jointKindNamed(name->text);
    inside(joint, "when", place);
    if (kind == nullptr) return;
    for (const Role& role : kind->roles()) {
      std::string at = place;
      at.append(".").append(role.name);
      parts(joint.find(role.name), at);
    }
    for (const Parameter& parameter : kind->parameters()) {
      if (parameter.type == Parameter::Type::word) continue;
      inside(joint, std::string(parameter.name).c_str(), place);
    }
  }

  const NameVisitor& visitor_;
  std::string scope_;
};

}  // namespace

void visitNames(JsonNode& document, const NameVisitor& visitor) {
  Walk(visitor).sections(document, "");
}

bool isOf(const std::string& word, const std::string& name, bool repeated) {
  const std::string first = word.substr(0, word.find('.'));
  if (first == name) return true;
  if (!repeated || !first.starts_with(name + "_")) return false;
  const std::string_view end = std::string_view(first).substr(name.size() + 1);
  return end == "copy" || end == "next" ||
         (!end.empty() && std::ranges::all_of(end, [](char c) { return c >= '0' && c <= '9'; }));
}

}  // namespace dryfit::joinery

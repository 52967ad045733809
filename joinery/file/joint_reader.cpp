#include "joinery/file/joint_reader.h"

#include "joinery/joints/joint_kinds.h"

#include <algorithm>
#include <set>

#include "joinery/base/plain_text.h"
#include "joinery/file/reader_names.h"

namespace dryfit::joinery {
namespace {

std::vector<std::string> kindNames() {
  std::vector<std::string> names;
  for (const auto& kind : jointKinds()) names.emplace_back(kind->name());
  return names;
}

std::vector<std::string> keysOf(const JointKind& kind) {
  std::vector<std::string> keys{"kind", "when", "note"};
  for (const Role& role : kind.roles()) keys.emplace_back(role.name);
  for (const Parameter& parameter : kind.parameters()) keys.emplace_back(parameter.name);
  return keys;
}

/// A word is kept as the text of an expression that nobody evaluates.
Expression readParameter(const Parameter& parameter, const JsonPlace& place) {
  if (parameter.type != Parameter::Type::word) return place.expression();
  const std::vector<std::string> words(parameter.words.begin(), parameter.words.end());
  return {words[place.wordOf(words)], false};
}

void readParameters(const JointKind& kind, const JsonPlace& place, Joint& joint) {
  for (const auto& [key, value] : place.members()) {
    for (const Parameter& parameter : kind.parameters()) {
      if (parameter.name == key) {
        joint.parameters.emplace_back(key, readParameter(parameter, value));
      }
    }
  }
}

void checkMatesDiffer(const JsonPlace& place, const Joint& joint) {
  std::set<std::string> seen;
  for (const RoleFilling& filling : joint.mates) {
    for (const std::string& part : filling.parts) {
      if (seen.insert(part).second) continue;
      place.wrong("the part " + inQuotes(part) + " is joined to itself",
                  "a joint needs different parts");
      return;
    }
  }
}

}  // namespace

std::vector<std::string> parameterNames(const JointKind& kind) {
  std::vector<std::string> names;
  for (const Parameter& parameter : kind.parameters()) names.emplace_back(parameter.name);
  return names;
}

JointReader::JointReader(const Model& model)
    : parts_(namesOf(model.parts)), known_(parts_.begin(), parts_.end()) {}

Joint JointReader::read(const std::string& name, const JsonPlace& place) const {
  Joint joint;
  joint.name = name;
  if (!place.isObject()) return joint;
  const JointKind* kind = readKind(place, joint);
  if (kind == nullptr || !place.isObject(keysOf(*kind))) return joint;
  for (const Role& role : kind->roles()) readMates(place, role, joint);
  readParameters(*kind, place, joint);
  if (const auto note = place.find("note")) (void)note->text();
  if (!place.failed()) checkMatesDiffer(place, joint);
  return joint;
}

const JointKind* JointReader::readKind(const JsonPlace& place, Joint& joint) const {
  const auto kind = place.need("kind");
  if (!kind) return nullptr;
  joint.kind = kind->text();
  const JointKind* found = jointKindNamed(joint.kind);
  if (found == nullptr) {
    kind->unknown("there is no kind of joint " + inQuotes(joint.kind), joint.kind, kindNames());
  }
  return found;
}

void JointReader::readMates(const JsonPlace& place, const Role& role, Joint& joint) const {
  const auto value = place.need(std::string(role.name));
  if (!value) return;
  RoleFilling filling{std::string(role.name), {}};
  if (!value->node().is(JsonNode::Type::list)) {
    readMate(*value, filling);
  } else if (!role.many) {
    value->wrong("one part is needed here, not a list",
                 "write one joint for each of them, each with a name of its own");
  } else if (value->node().members.empty()) {
    value->wrong("the list is empty", "name at least one part");
  } else {
    for (const auto& [key, entry] : value->members()) readMate(entry, filling);
  }
  joint.mates.push_back(std::move(filling));
}

void JointReader::readMate(const JsonPlace& place, RoleFilling& filling) const {
  filling.parts.push_back(place.text());
  const std::string& part = filling.parts.back();
  if (!known_.contains(part)) {
    place.unknown("there is no part " + inQuotes(part), part, parts_);
  }
}

}  // namespace dryfit::joinery

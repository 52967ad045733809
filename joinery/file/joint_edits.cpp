#include "joinery/file/joint_edits.h"

#include "joinery/joints/joint_kinds.h"

#include <algorithm>
#include <map>
#include <utility>

#include "joinery/base/plain_text.h"
#include "joinery/file/authored_part.h"
#include "joinery/file/joint_reader.h"
#include "joinery/file/reader_names.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

const Joint* jointNamed(const ModelFile& file, const std::string& name) {
  const auto& joints = file.model().joints;
  const auto own = std::ranges::find(joints, name, &Joint::name);
  return own == joints.end() ? nullptr : &*own;
}

tl::unexpected<Error> noJoint(const ModelFile& file, const std::string& name) {
  return fail(ErrorCode::unknownName, "there is no joint " + inQuotes(name),
              "joints." + oneLine(name), nearestMend(name, namesOf(file.model().joints)));
}

/// Changes what the author wrote of a joint.
Result<void> changeJoint(ModelFile& file, const std::string& joint,
                         const std::function<Result<void>(JsonNode& node)>& edit) {
  if (jointNamed(file, joint) == nullptr) return noJoint(file, joint);
  const std::string place = file.authoredPlace("joints", joint);
  return file.change([&](JsonNode& document) -> Result<void> {
    JsonNode* node = nodeAt(document, place);
    if (node != nullptr && node->is(Type::object)) return edit(*node);
    return fail(ErrorCode::unknownName, "this is described in a file of its own", place,
                "change it there");
  });
}

const Parameter* parameterOf(const JointKind& kind, std::string_view name) {
  const auto parameters = kind.parameters();
  const auto own = std::ranges::find(parameters, name, &Parameter::name);
  return own == parameters.end() ? nullptr : &*own;
}

/// True where an entry that was written for one kind means the same to another.
bool keepsIts(const JsonMember& entry, const Parameter& before, const JointKind& kind) {
  const Parameter* after = parameterOf(kind, entry.key);
  if (after == nullptr || after->type != before.type) return false;
  return after->type != Parameter::Type::word ||
         std::ranges::find(after->words, entry.value.text) != after->words.end();
}

/// The entries of a joint as another kind has them; adds to `gone` what it does not have.
JsonNode asKind(const JsonNode& joint, const JointKind& from, const JointKind& to,
                std::vector<std::string>& gone) {
  JsonNode changed = JsonNode::ofObject();
  for (const JsonMember& entry : joint.members) {
    const auto role = std::ranges::find(from.roles(), entry.key, &Role::name);
    if (entry.key == "kind") {
      changed.set("kind", JsonNode::ofText(std::string(to.name())));
    } else if (role != from.roles().end()) {
      const auto index = static_cast<std::size_t>(role - from.roles().begin());
      changed.set(std::string(to.roles()[index].name), entry.value);
    } else if (const Parameter* parameter = parameterOf(from, entry.key);
               parameter != nullptr && !keepsIts(entry, *parameter, to)) {
      gone.push_back(entry.key);
    } else {
      changed.set(entry.key, entry.value);
    }
  }
  return changed;
}

/// The two roles of a joint whose mates may change places; null where they may not.
struct Exchange {
  std::string first, second;
};
std::optional<Exchange> exchangeOf(const JsonNode& joint, const JointKind& kind) {
  const auto roles = kind.roles();
  if (roles.size() != 2) return std::nullopt;
  Exchange both{std::string(roles[0].name), std::string(roles[1].name)};
  const JsonNode *first = joint.find(both.first), *second = joint.find(both.second);
  if (first == nullptr || second == nullptr) return std::nullopt;
  const auto count = [](const JsonNode& filling) {
    return filling.is(Type::list) ? filling.members.size() : 1;
  };
  const bool many = roles[0].many || roles[1].many;
  if (many && (count(*first) > 1 || count(*second) > 1)) return std::nullopt;
  return both;
}

/// What the joints of the model that one entry makes are called once it has another name.
std::map<std::string, std::string> newNames(const ModelFile& file, const std::string& place,
                                            const std::string& name) {
  const std::string old = place.substr(place.rfind('.') + 1);
  std::map<std::string, std::string> names;
  for (const Joint& joint : file.model().joints) {
    if (file.authoredPlace("joints", joint.name) != place) continue;
    const std::size_t own = joint.name.rfind('.') + 1;  // npos + 1 is 0: no sub-assembly
    if (!std::string_view(joint.name).substr(own).starts_with(old)) continue;
    names[joint.name] = joint.name.substr(0, own) + name + joint.name.substr(own + old.size());
  }
  return names;
}

void renameInMarks(JsonNode& document, const std::map<std::string, std::string>& names) {
  JsonNode* marks = document.find("marks");
  if (marks == nullptr) return;
  for (JsonMember& mark : marks->members) {
    JsonNode* joints = mark.value.find("joints");
    if (joints == nullptr) continue;
    for (JsonMember& made : joints->members) {
      const auto renamed = names.find(made.key);
      if (renamed != names.end()) made.key = renamed->second;
    }
  }
}

}  // namespace

std::string jointText(const ModelFile& file, const std::string& joint, const std::string& key) {
  const JsonNode* node = nodeAt(file.document(), file.authoredPlace("joints", joint));
  const JsonNode* text = node == nullptr ? nullptr : node->find(key);
  return text == nullptr || text->is(Type::list) || text->is(Type::object) ? "" : text->text;
}

Result<void> setJointText(ModelFile& file, const std::string& joint, const std::string& key,
                          const std::string& text) {
  const Joint* own = jointNamed(file, joint);
  if (own == nullptr) return noJoint(file, joint);
  const Parameter* parameter = parameterOf(*jointKindNamed(own->kind), key);
  if (parameter == nullptr && key != "note" && key != "when") {
    return fail(ErrorCode::unknownName, "a " + own->kind + " has no " + inQuotes(key),
                "joints." + joint + "." + oneLine(key),
                nearestMend(key, parameterNames(*jointKindNamed(own->kind))));
  }
  const bool number = parameter != nullptr && parameter->type != Parameter::Type::word;
  return changeJoint(file, joint, [&](JsonNode& node) -> Result<void> {
    if (trimmed(text).empty()) {
      node.erase(key);
    } else {
      node.set(key, number ? authoredNode(text) : JsonNode::ofText(trimmed(text)));
    }
    return {};
  });
}

Result<std::vector<std::string>> setJointKind(ModelFile& file, const std::string& joint,
                                              const std::string& kind) {
  const Joint* own = jointNamed(file, joint);
  if (own == nullptr) return noJoint(file, joint);
  const JointKind* to = jointKindNamed(kind);
  if (to == nullptr) {
    std::vector<std::string> kinds;
    for (const auto& known : jointKinds()) kinds.emplace_back(known->name());
    return fail(ErrorCode::unknownName, "there is no kind of joint " + inQuotes(kind),
                "joints." + joint + ".kind", nearestMend(kind, kinds));
  }
  const JointKind& from = *jointKindNamed(own->kind);
  if (from.roles().size() != to->roles().size()) {
    return fail(ErrorCode::roleUnfit, "the two kinds hold different numbers of parts",
                "joints." + joint + ".kind", "join the parts anew");
  }
  std::vector<std::string> gone;
  auto done = changeJoint(file, joint, [&](JsonNode& node) -> Result<void> {
    node = asKind(node, from, *to, gone);
    return {};
  });
  if (!done) return tl::unexpected(std::move(done.error()));
  return gone;
}

Result<void> renameJoint(ModelFile& file, const std::string& joint, const std::string& name) {
  if (jointNamed(file, joint) == nullptr) return noJoint(file, joint);
  const std::string place = file.authoredPlace("joints", joint);
  const std::string old = place.substr(place.rfind('.') + 1);
  if (old == name) return {};
  const auto names = newNames(file, place, name);
  return file.change([&](JsonNode& document) -> Result<void> {
    JsonNode* list = nodeAt(document, place.substr(0, place.rfind('.')));
    if (list == nullptr || list->find(old) == nullptr) {
      return fail(ErrorCode::unknownName, "this is described in a file of its own", place,
                  "change it there");
    }
    if (list->find(name) != nullptr) {
      return fail(ErrorCode::badModel, inQuotes(name) + " is taken", place, "choose another name");
    }
    for (JsonMember& entry : list->members) {
      if (entry.key == old) entry.key = name;
    }
    renameInMarks(document, names);
    return {};
  });
}

bool canSwapMates(const ModelFile& file, const std::string& joint) {
  const Joint* own = jointNamed(file, joint);
  const JsonNode* node = nodeAt(file.document(), file.authoredPlace("joints", joint));
  return own != nullptr && node != nullptr &&
         exchangeOf(*node, *jointKindNamed(own->kind)).has_value();
}

Result<void> swapMates(ModelFile& file, const std::string& joint) {
  const Joint* own = jointNamed(file, joint);
  if (own == nullptr) return noJoint(file, joint);
  const JointKind& kind = *jointKindNamed(own->kind);
  return changeJoint(file, joint, [&](JsonNode& node) -> Result<void> {
    const auto roles = exchangeOf(node, kind);
    if (!roles) {
      return fail(ErrorCode::roleUnfit, "its roles do not take equally many parts",
                  "joints." + joint, "join the parts anew");
    }
    std::swap(*node.find(roles->first), *node.find(roles->second));
    return {};
  });
}

}  // namespace dryfit::joinery

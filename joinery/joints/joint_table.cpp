#include "joinery/joints/joint_table.h"

#include <algorithm>
#include <map>
#include <utility>

#include "joinery/formula/expression.h"
#include "joinery/joints/joint_kinds.h"

namespace dryfit::joinery {
namespace {

using PartNames = std::map<std::string_view, PartId>;

std::string didYouMean(const std::string& name, const std::vector<std::string>& candidates) {
  const std::string nearest = nearestName(name, candidates);
  return nearest.empty() ? std::string{} : "did you mean '" + nearest + "'?";
}

template <class Range, class Name>
std::vector<std::string> namesOf(const Range& range, Name name) {
  std::vector<std::string> names;
  names.reserve(range.size());
  for (const auto& item : range) names.emplace_back(name(item));
  return names;
}

Result<const JointKind*> kindOf(const Joint& joint) {
  if (const JointKind* kind = jointKindNamed(joint.kind)) return kind;
  const auto names = namesOf(jointKinds(), [](const auto& kind) { return kind->name(); });
  return fail(ErrorCode::unknownName, "there is no kind of joint called '" + joint.kind + "'",
              "joints." + joint.name + ".kind", didYouMean(joint.kind, names));
}

Result<PartId> partNamed(const std::string& name, const PartNames& parts,
                         const std::string& where) {
  const auto found = parts.find(name);
  if (found != parts.end()) return found->second;
  const auto names = namesOf(parts, [](const auto& part) { return part.first; });
  return fail(ErrorCode::unknownName, "there is no part called '" + name + "'", where,
              didYouMean(name, names));
}

Result<std::vector<PartId>> partsOf(const RoleFilling& filling, const PartNames& parts,
                                    const std::string& where) {
  std::vector<PartId> ids;
  for (const std::string& name : filling.parts) {
    const auto id = partNamed(name, parts, where);
    if (!id) return tl::unexpected(id.error());
    ids.push_back(*id);
  }
  return ids;
}

Result<void> everyPartOnce(const std::vector<std::vector<PartId>>& mates, const Joint& joint) {
  std::vector<PartId> all;
  for (const auto& role : mates) all.insert(all.end(), role.begin(), role.end());
  std::ranges::sort(all);
  if (std::ranges::adjacent_find(all) == all.end()) return {};
  return fail(ErrorCode::joinedToItself, "a part cannot be joined to itself",
              "joints." + joint.name, "name two different parts");
}

/// The parts by role, in the order of the kind's roles.
Result<std::vector<std::vector<PartId>>> matesOf(const Joint& joint, const JointKind& kind,
                                                 const PartNames& parts) {
  const std::string place = "joints." + joint.name;
  std::vector<std::vector<PartId>> mates(kind.roles().size());
  for (const RoleFilling& filling : joint.mates) {
    const std::string where = place + "." + filling.role;
    const auto role = std::ranges::find(kind.roles(), filling.role, &Role::name);
    if (role == kind.roles().end()) {
      const auto names = namesOf(kind.roles(), [](const Role& r) { return r.name; });
      return fail(ErrorCode::unknownName, "a " + joint.kind + " has no such role", where,
                  didYouMean(filling.role, names));
    }
    auto& mate = mates[static_cast<std::size_t>(role - kind.roles().begin())];
    if (!mate.empty()) return fail(ErrorCode::roleUnfit, "this role is given twice", where);
    auto ids = partsOf(filling, parts, where);
    if (!ids) return tl::unexpected(ids.error());
    if (ids->size() > 1 && !role->many) {
      return fail(ErrorCode::roleUnfit, "this role takes one part", where);
    }
    mate = std::move(*ids);
  }
  for (std::size_t i = 0; i < mates.size(); ++i) {
    if (!mates[i].empty()) continue;
    return fail(ErrorCode::roleUnfit, "no part is named for this role",
                place + "." + std::string(kind.roles()[i].name));
  }
  if (auto once = everyPartOnce(mates, joint); !once) return tl::unexpected(once.error());
  return mates;
}

std::vector<std::vector<Mate>> rolesOf(const Piece& piece,
                                       const std::vector<std::vector<PartId>>& mates) {
  std::vector<std::vector<Mate>> roles;
  roles.reserve(mates.size());
  for (const auto& ids : mates) {
    auto& role = roles.emplace_back();
    role.reserve(ids.size());
    for (const PartId id : ids) {
      role.push_back({piece.parts[id.index()], piece.part(id).name, {}});
    }
  }
  return roles;
}

struct Given {
  std::vector<JointValue> values;
  std::vector<std::pair<std::string, std::string>> words;
};

Result<void> addWord(const std::string& word, const Parameter& parameter, const std::string& where,
                     Given& given) {
  if (std::ranges::find(parameter.words, word) == parameter.words.end()) {
    std::string allowed;
    for (const std::string_view w : parameter.words) {
      allowed += (allowed.empty() ? "" : ", ") + std::string(w);
    }
    return fail(ErrorCode::badJoint, "'" + word + "' is not allowed here", where,
                "use one of " + allowed);
  }
  given.words.emplace_back(parameter.name, word);
  return {};
}

Result<Given> givenFor(const Joint& joint, const JointKind& kind, const Piece& piece,
                       ExpressionCache& expressions) {
  const NameLookup lookup = [&](const std::string& name) -> std::optional<double> {
    const auto found = piece.values.find(name);
    if (found == piece.values.end()) return std::nullopt;
    return found->second;
  };
  Given given;
  for (const auto& [name, expression] : joint.parameters) {
    const std::string where = "joints." + joint.name + "." + name;
    const auto parameter = std::ranges::find(kind.parameters(), name, &Parameter::name);
    if (parameter == kind.parameters().end()) {
      const auto names = namesOf(kind.parameters(), [](const Parameter& p) { return p.name; });
      return fail(ErrorCode::unknownName, "a " + joint.kind + " has no such number", where,
                  didYouMean(name, names));
    }
    if (parameter->type == Parameter::Type::word) {
      if (auto added = addWord(expression.text, *parameter, where, given); !added) {
        return tl::unexpected(added.error());
      }
      continue;
    }
    const bool isLength = parameter->type == Parameter::Type::length;
    const auto value = isLength ? expressions.evaluateLength(expression, piece.model.unit, lookup)
                                : expressions.evaluateNumber(expression, piece.model.unit, lookup);
    if (!value) return tl::unexpected(value.error().within(where));
    given.values.push_back({name, *value, isLength, true, {}});
  }
  return given;
}

Result<JointRecord> recordOf(const Piece& piece, JointId id, const PartNames& parts,
                             ExpressionCache& expressions) {
  const Joint& joint = piece.joint(id);
  const auto kind = kindOf(joint);
  if (!kind) return tl::unexpected(kind.error());
  const auto mates = matesOf(joint, **kind, parts);
  if (!mates) return tl::unexpected(mates.error());
  auto given = givenFor(joint, **kind, piece, expressions);
  if (!given) return tl::unexpected(given.error());
  ShopMeasures shop = usualMeasures(piece.model.unit);
  if (!piece.model.cutters.empty()) shop.cutters = piece.model.cutters;
  return JointRecord{*kind,
                     {id, rolesOf(piece, *mates), std::move(given->values), std::move(given->words),
                      std::move(shop)}};
}

PartNames namesOfParts(const Piece& piece) {
  PartNames parts;
  for (const PlacedPart& part : piece.parts) parts.emplace(piece.part(part.id).name, part.id);
  return parts;
}

}  // namespace

Result<std::vector<JointRecord>> jointTable(const Piece& piece, ExpressionCache& expressions) {
  const PartNames parts = namesOfParts(piece);
  std::vector<JointRecord> table;
  table.reserve(piece.model.joints.size());
  for (std::size_t i = 0; i < piece.model.joints.size(); ++i) {
    auto record = recordOf(piece, JointId(i), parts, expressions);
    if (!record) return tl::unexpected(record.error());
    table.push_back(std::move(*record));
  }
  return table;
}

Result<JointRecord> jointRecord(const Piece& piece, JointId id) {
  ExpressionCache expressions;
  auto record = recordOf(piece, id, namesOfParts(piece), expressions);
  if (!record) return record;
  for (auto& role : record->context.roles) {
    for (Mate& mate : role) {
      for (const Feature& feature : mate.part.features) {
        const JointKind* by = jointKindNamed(piece.joint(feature.joint).kind);
        const bool leads = by != nullptr && by->leadsOthers() && traitsOf(feature.purpose).leads;
        if (leads && !record->kind->leadsOthers()) mate.grooves.push_back(feature);
      }
      mate.part.features.clear();
    }
  }
  return record;
}

}  // namespace dryfit::joinery

#include "joinery/file/uses.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

#include "joinery/base/plain_text.h"
#include "joinery/file/openings.h"
#include "joinery/file/rewrite_entries.h"
#include "joinery/file/scope.h"
#include "joinery/file/use_copies.h"
#include "joinery/joints/joint_kinds.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

constexpr std::array<const char*, 3> kAxisNames{"x", "y", "z"};

tl::unexpected<Error> bad(std::string what, const std::string& place, std::string mend,
                          ErrorCode code = ErrorCode::badModel) {
  return fail(code, std::move(what), place, std::move(mend));
}

/// What a use stands in: the piece, or a copy of a sub-assembly.
struct Around {
  const AssemblyTable* descriptions = nullptr;
  std::string place;   ///< of what is written there: "" or "assemblies.chest."
  std::string copy;    ///< for people: "in chest_1"; may be empty
  std::string prefix;  ///< "" or "chest_1."
  std::string group;   ///< that its parts turn with; may be empty
  std::string label;   ///< for the bench; may be empty
  MirrorPlacing placing;
};

class Writer {
 public:
  explicit Writer(const JsonNode& document, const AssemblyTable& descriptions)
      : flat_{document, {}, {}, {}}, numbers_(flat_.document) {
    flat_.document.erase("uses");
    flat_.document.erase("assemblies");
    around_.descriptions = &descriptions;
    if (const JsonNode* parts = flat_.document.find("parts")) {
      for (const JsonMember& part : parts->members) noteThickness(part.key, part.value);
    }
  }

  Result<FlatDocument> run(const JsonNode& uses) {
    for (const JsonMember& use : uses.members) {
      if (auto done = writeUse(use.key, use.value, around_); !done) {
        return tl::unexpected(done.error());
      }
    }
    return std::move(flat_);
  }

 private:
  /// An error of something that is written at `place`, seen in a copy.
  static tl::unexpected<Error> seenIn(Error error, const std::string& copy) {
    if (!copy.empty()) error.where += " (" + copy + ")";
    return tl::unexpected(std::move(error));
  }

  Result<void> writeUse(const std::string& ownName, const JsonNode& entry, const Around& around) {
    const std::string name = around.prefix + ownName;
    const std::string place = around.place + "uses." + oneLine(ownName);
    JsonNode use = entry;
    if (const JsonNode* when = use.find("when")) {
      const auto holds = numbers_.holds(*when, place + ".when");
      if (!holds) return seenIn(holds.error(), around.copy);
      if (!*holds) {
        flat_.leftOut.insert(name);
        return {};
      }
      use.erase("when");
    }
    const auto found = around.descriptions->all.find(use.find("of")->text);
    if (found == around.descriptions->all.end()) return unknownDescription(use, around, place);
    const auto copies = copiesOfUse(name, use, numbers_, place);
    if (!copies) return seenIn(copies.error(), around.copy);
    if (isRepeated(use)) {
      std::vector<std::string>& names = flat_.copiesOf[name];
      for (const UseCopy& copy : *copies) names.push_back(copy.name);
    }
    for (const UseCopy& copy : *copies) {
      if (auto done = writeCopy(copy, found->second, around, place); !done) return done;
    }
    return {};
  }

  static Result<void> unknownDescription(const JsonNode& use, const Around& around,
                                         const std::string& place) {
    const std::string name = use.find("of")->text;
    std::vector<std::string> known;
    for (const auto& [own, description] : around.descriptions->all) known.push_back(own);
    const std::string nearest = nearestName(name, known);
    return bad("there is no sub-assembly " + inQuotes(name), place + ".of",
               nearest.empty() ? "describe it under 'assemblies'"
                               : "did you mean " + inQuotes(nearest) + "?",
               ErrorCode::unknownName);
  }

  Result<void> writeCopy(const UseCopy& copy, const AssemblyDescription& description,
                         const Around& around, const std::string& place) {
    if (auto fine = checkGiven(copy.entry, description, place); !fine) {
      return seenIn(fine.error(), copy.words);
    }
    const std::string prefix = copy.name + ".";
    const auto opening = openingDimensions(copy.entry.find("opening"), prefix, place + ".opening");
    if (!opening) return seenIn(opening.error(), copy.words);
    for (const OpeningDimension& side : *opening) {
      setDimension(side.name, side.text, {side.place, copy.words, {}, {}});
    }
    Around inside{description.home, description.place + ".", copy.words,    prefix,
                  around.group,     labelOf(copy, around),   around.placing};
    for (const MirrorPlane& plane : copy.mirrors) mirror(plane, prefix, place, copy, inside);
    writeTurn(copy, around, place, inside);
    const Scope scope(prefix, *description.node, copy.entry, inside.placing);
    writeDimensions(description, copy, scope, inside, place);
    writeGroups(description, scope, inside);
    writeParts(description, scope, inside);
    if (partsWritten_ > kMostParts) {
      return bad(fmt::format("the uses come to more than {} parts", kMostParts), place,
                 "let them be there less often", ErrorCode::countUnfit);
    }
    if (const JsonNode* uses = description.node->find("uses")) {
      for (const JsonMember& use : uses->members) {
        JsonNode entry = use.value;
        rewriteUse(entry, scope);
        if (auto done = writeUse(use.key, entry, inside); !done) return done;
      }
    }
    writeJoints(description, scope, inside);
    writeTapers(description, scope, inside);
    writeHardware(description, scope, inside);
    return {};
  }

  /// Every value and neighbour is known to the description, every neighbour that it has is given.
  [[nodiscard]] static Result<void> checkGiven(const JsonNode& use,
                                               const AssemblyDescription& description,
                                               const std::string& place) {
    const auto namesOf = [](const JsonNode* list) {
      std::vector<std::string> names;
      if (list == nullptr) return names;
      for (const JsonMember& member : list->members) {
        names.push_back(list->is(Type::list) ? member.value.text : member.key);
      }
      return names;
    };
    const auto given = [&](const char* key, const char* section, const char* what) -> Result<void> {
      const std::vector<std::string> known = namesOf(description.node->find(section));
      for (const std::string& name : namesOf(use.find(key))) {
        if (std::ranges::find(known, name) != known.end()) continue;
        const std::string nearest = nearestName(name, known);
        return bad(fmt::format("the sub-assembly has no {} {}", what, inQuotes(name)),
                   fmt::format("{}.{}.{}", place, key, oneLine(name)),
                   nearest.empty() ? "take it out" : "did you mean " + inQuotes(nearest) + "?",
                   ErrorCode::unknownName);
      }
      return {};
    };
    if (auto fine = given("values", "dimensions", "dimension"); !fine) return fine;
    if (auto fine = given("neighbours", "neighbours", "neighbour"); !fine) return fine;
    for (const std::string& name : namesOf(description.node->find("neighbours"))) {
      const JsonNode* neighbours = use.find("neighbours");
      if (neighbours != nullptr && neighbours->find(name) != nullptr) continue;
      return bad("the neighbour " + inQuotes(name) + " is not given", place + ".neighbours",
                 "name the part that takes its place");
    }
    return checkOpening(use.find("opening"), *description.node, place + ".opening");
  }

  void setDimension(const std::string& name, std::string text, const AuthoredPlace& from) {
    JsonNode& list = flat_.document.objectAt("dimensions");
    if (!list.is(Type::object)) return;
    list.members.push_back({name, JsonNode::ofText(std::move(text))});
    flat_.authored["dimensions." + name] = from;
  }

  void mirror(const MirrorPlane& plane, const std::string& prefix, const std::string& place,
              const UseCopy& copy, Around& inside) {
    AxisPlacing& axis = inside.placing.axes[static_cast<std::size_t>(plane.across)];
    const AxisPlacing mirrored = axis.afterMirrorAt(plane.at);
    const char* const word = kAxisNames[static_cast<std::size_t>(plane.across)];
    std::string name = fmt::format("{}reflected.{}", prefix, word);
    while (flat_.authored.contains("dimensions." + name)) name += "_again";
    const bool own = copy.entry.find("mirror") != nullptr;
    setDimension(name, mirrored.offset,
                 {place + (own ? ".mirror" : ".repeat.mirrored"), copy.words, {}, {}});
    axis = {mirrored.flipped, name};
  }

  /// A group that turns the copy as a whole.
  void writeTurn(const UseCopy& copy, const Around& around, const std::string& place,
                 Around& inside) {
    const JsonNode* turn = copy.entry.find("turn");
    const JsonNode* opens = copy.entry.find("opens");
    if (turn == nullptr && opens == nullptr) return;
    JsonNode group = JsonNode::ofObject();
    if (turn != nullptr) {
      JsonNode placed = *turn;
      // The image of the whole, its turn included.
      inside.placing.placeTurn(placed);
      group.set("turn", std::move(placed));
    }
    if (opens != nullptr) group.set("opens", *opens);
    if (!around.group.empty()) group.set("within", JsonNode::ofText(around.group));
    inside.group = copy.name;
    add("groups", copy.name, std::move(group), {place, copy.words, {}, {}});
  }

  [[nodiscard]] static std::string labelOf(const UseCopy& copy, const Around& around) {
    std::string words = copy.name.substr(around.prefix.size());
    const std::size_t number = copy.repeated ? words.rfind('_') : words.size();
    const std::string behind = copy.labelled ? "" : " " + words.substr(number + 1);
    words.resize(number);
    std::ranges::replace(words, '_', ' ');
    if (const JsonNode* label = copy.entry.find("label")) words = label->text;
    words += behind;
    return around.label.empty() ? words : around.label + " " + words;
  }

  void add(const char* section, const std::string& name, JsonNode entry, AuthoredPlace from) {
    JsonNode& list = flat_.document.objectAt(section);
    if (!list.is(Type::object)) return;
    list.members.push_back({name, std::move(entry)});
    flat_.authored[fmt::format("{}.{}", section, name)] = std::move(from);
  }

  /// Calls `write` with each entry of a section of a description: its name, a copy of it, and where
  /// it was written.
  template <class Write>
  static void each(const AssemblyDescription& description, const char* section,
                   const Around& inside, const Write& write) {
    const JsonNode* list = description.node->find(section);
    if (list == nullptr) return;
    for (const JsonMember& member : list->members) {
      write(member.key, member.value,
            AuthoredPlace{fmt::format("{}.{}.{}", description.place, section, oneLine(member.key)),
                          inside.copy,
                          {},
                          {}});
    }
  }

  void writeDimensions(const AssemblyDescription& description, const UseCopy& copy,
                       const Scope& scope, const Around& inside, const std::string& place) {
    const JsonNode* values = copy.entry.find("values");
    each(description, "dimensions", inside,
         [&](const std::string& name, JsonNode dimension, AuthoredPlace from) {
           const JsonNode* value = values == nullptr ? nullptr : values->find(name);
           JsonNode* own = dimension.is(Type::object) ? dimension.find("value") : &dimension;
           if (value != nullptr && own != nullptr) {
             *own = *value;
             from.place = fmt::format("{}.values.{}", place, oneLine(name));
           } else {
             scope.rewrite(own);
           }
           add("dimensions", inside.prefix + name, std::move(dimension), std::move(from));
         });
  }

  void writeGroups(const AssemblyDescription& description, const Scope& scope,
                   const Around& inside) {
    each(description, "groups", inside,
         [&](const std::string& name, JsonNode group, AuthoredPlace from) {
           if (JsonNode* turn = group.find("turn")) {
             rewriteTurn(turn, scope);
             scope.placing().placeTurn(*turn);
           }
           if (JsonNode* within = group.find("within")) {
             within->text = inside.prefix + within->text;
           } else if (!inside.group.empty() && group.is(Type::object)) {
             group.set("within", JsonNode::ofText(inside.group));
           }
           add("groups", inside.prefix + name, std::move(group), std::move(from));
         });
  }

  void writeParts(const AssemblyDescription& description, const Scope& scope,
                  const Around& inside) {
    each(description, "parts", inside,
         [&](const std::string& name, JsonNode part, AuthoredPlace from) {
           ++partsWritten_;
           rewritePart(part, scope);
           if (JsonNode* group = part.find("group")) {
             if (group->is(Type::text)) group->text = inside.prefix + group->text;
           } else if (!inside.group.empty() && part.is(Type::object)) {
             part.set("group", JsonNode::ofText(inside.group));
           }
           labelPart(part, name, inside.label);
           noteThickness(inside.prefix + name, part);
           add("parts", inside.prefix + name, std::move(part), std::move(from));
         });
  }

  /// Words for the bench: those of the copy in front.
  static void labelPart(JsonNode& part, const std::string& name, const std::string& copy) {
    if (!part.is(Type::object)) return;
    JsonNode* label = part.find("label");
    if (label != nullptr && label->is(Type::list)) {
      for (JsonMember& own : label->members) own.value.text = copy + " " + own.value.text;
    }
    if (label != nullptr && !label->is(Type::text)) return;
    std::string words = label == nullptr ? name : label->text;
    if (label == nullptr) std::ranges::replace(words, '_', ' ');
    part.set("label", JsonNode::ofText(copy + " " + words));
  }

  /// The axis of the thickness of what fills a joint's first role.
  [[nodiscard]] std::optional<Axis> thicknessOf(const JsonNode& joint,
                                                const JointKind& kind) const {
    const JsonNode* mate = joint.find(kind.roles().front().name);
    if (mate == nullptr) return std::nullopt;
    if (mate->is(Type::list)) {
      if (mate->members.empty()) return std::nullopt;
      mate = &mate->members.front().value;
    }
    auto part = thickness_.find(mate->text);
    if (part == thickness_.end()) {  // a copy: "shelf_2" of "shelf"
      part = thickness_.find(mate->text.substr(0, mate->text.rfind('_')));
    }
    return part == thickness_.end() ? std::nullopt : std::optional(part->second);
  }

  void noteThickness(const std::string& name, const JsonNode& part) {
    const JsonNode* span = part.find("thickness");
    const JsonNode* along = span == nullptr ? nullptr : span->find("along");
    const auto axis = along == nullptr ? std::nullopt : axisNamed(along->text);
    if (axis) thickness_[name] = *axis;
  }

  void writeJoints(const AssemblyDescription& description, const Scope& scope,
                   const Around& inside) {
    each(description, "joints", inside,
         [&](const std::string& name, JsonNode joint, AuthoredPlace from) {
           scope.rewrite(joint.find("when"));
           const JsonNode* kindName = joint.find("kind");
           const JointKind* kind = kindName == nullptr ? nullptr : jointKindNamed(kindName->text);
           if (kind != nullptr) {
             for (const Role& role : kind->roles()) renameParts(joint.find(role.name), scope);
             for (const Parameter& parameter : kind->parameters()) {
               if (parameter.type == Parameter::Type::word) continue;
               scope.rewrite(joint.find(parameter.name));
             }
             from.mirror = scope.placing();
             from.thickness = thicknessOf(joint, *kind);
             scope.placing().placeJoint(joint, *kind, from.thickness);
           }
           add("joints", inside.prefix + name, std::move(joint), std::move(from));
         });
  }

  void writeTapers(const AssemblyDescription& description, const Scope& scope,
                   const Around& inside) {
    each(description, "tapers", inside,
         [&](const std::string& name, JsonNode taper, AuthoredPlace from) {
           renameParts(taper.find("parts"), scope);
           for (const char* key : {"by", "from"}) scope.rewrite(taper.find(key));
           scope.placing().placeTaper(taper);
           add("tapers", inside.prefix + name, std::move(taper), std::move(from));
         });
  }

  void writeHardware(const AssemblyDescription& description, const Scope& scope,
                     const Around& inside) {
    each(description, "hardware", inside,
         [&](const std::string& name, JsonNode goods, AuthoredPlace from) {
           scope.rewrite(goods.find("when"));
           scope.rewrite(goods.find("count"));
           renameParts(goods.find("holds"), scope);
           add("hardware", inside.prefix + name, std::move(goods), std::move(from));
         });
  }

  FlatDocument flat_;
  FixedNumbers numbers_;
  Around around_;
  std::map<std::string, Axis> thickness_;  ///< by part: the axis that its thickness lies along
  int partsWritten_ = 0;
};

}  // namespace

Result<FlatDocument> writeOutUses(const JsonNode& document, const AssemblyTable& descriptions) {
  static const JsonNode kNone = JsonNode::ofObject();
  const JsonNode* uses = document.find("uses");
  return Writer(document, descriptions).run(uses == nullptr ? kNone : *uses);
}

bool isOfPlace(const std::string& dimension) {
  return dimension.find(".opening.") != std::string::npos ||
         dimension.find(".reflected.") != std::string::npos;
}

}  // namespace dryfit::joinery

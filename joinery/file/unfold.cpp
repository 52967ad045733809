#include "joinery/file/unfold.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>
#include <vector>

#include "joinery/base/plain_text.h"
#include "joinery/file/choices.h"
#include "joinery/file/copies.h"
#include "joinery/file/copy_names.h"
#include "joinery/file/fixed_numbers.h"
#include "joinery/file/hardware_rows.h"
#include "joinery/file/uses.h"
#include "joinery/joints/joint_kinds.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

tl::unexpected<Error> bad(std::string what, const std::string& place, std::string mend) {
  return fail(ErrorCode::badModel, std::move(what), place, std::move(mend));
}

/// Unfolds one document.
class Unfolder {
 public:
  explicit Unfolder(FlatDocument flat)
      : flat_(std::move(flat)),
        numbers_(flat_.document),
        result_{flat_.document, std::move(flat_.authored), {}},
        names_(flat_) {}

  Result<Unfolded> run() {
    if (auto done = unfoldAll(); !done) {
      Error error = done.error();
      error.where = result_.authoredPlace(error.where);
      return tl::unexpected(std::move(error));
    }
    return std::move(result_);
  }

 private:
  Result<void> unfoldAll() {
    for (const char* section : {"dimensions", "materials", "parts"}) {
      const JsonNode* list = result_.document.find(section);
      for (const char* word : {"copy", "copies"}) {
        if (list == nullptr || list->find(word) == nullptr) continue;
        return bad(inQuotes(word) + " is kept for the number of a repeated part",
                   fmt::format("{}.{}", section, word), "choose another name");
      }
    }
    for (auto step : {&Unfolder::parts, &Unfolder::joints, &Unfolder::hardware}) {
      if (auto done = (this->*step)(); !done) return done;
    }
    dropUnknown({"measured", "parts"});
    dropUnknown({"marks"});
    tapers();
    return {};
  }

  /// False where its condition says so. Takes the condition away.
  [[nodiscard]] Result<bool> isThere(JsonNode& entry, const std::string& place) {
    const JsonNode* when = entry.find("when");
    if (when == nullptr) return true;
    auto holds = numbers_.holds(*when, place + ".when");
    entry.erase("when");
    return holds;
  }

  Result<void> parts() {
    JsonNode* list = result_.document.find("parts");
    if (list == nullptr || !list->is(Type::object)) return {};
    std::vector<JsonMember> unfolded;
    for (JsonMember& part : list->members) {
      if (auto done =
              part.value.is(Type::object) ? unfoldPart(part, unfolded) : keep(part, unfolded);
          !done) {
        return done;
      }
    }
    list->members = std::move(unfolded);
    return {};
  }

  static Result<void> keep(JsonMember& part, std::vector<JsonMember>& unfolded) {
    unfolded.push_back(std::move(part));
    return {};
  }

  Result<void> unfoldPart(JsonMember& part, std::vector<JsonMember>& unfolded) {
    const std::string name = part.key, place = "parts." + oneLine(name);
    const auto there = isThere(part.value, place);
    if (!there) return tl::unexpected(there.error());
    Copies& copies = names_.ofPart(name);
    if (!*there) {
      copies.count = 0;
      return {};
    }
    if (auto done = mirrorOwn(part.value, place); !done) return done;
    const JsonNode* found = part.value.find("repeat");
    if (found == nullptr) return keep(part, unfolded);
    const JsonNode node = *found;
    part.value.erase("repeat");
    const auto repeat = repeatIn(node, numbers_, place + ".repeat");
    if (!repeat) return tl::unexpected(repeat.error());
    std::vector<MirrorPlane> mirrored;
    if (repeat->mirrored != nullptr) {
      const auto planes = mirrorPlanes(*repeat->mirrored, "", place + ".repeat.mirrored");
      if (!planes) return tl::unexpected(planes.error());
      mirrored = *planes;
    }
    if (repeat->spread != nullptr) {
      auto done = spreadCopies(part.value, *repeat->spread, place + ".repeat.spread");
      if (!done) return done;
    }
    copies.repeated = true;
    copies.count = repeat->count;
    if (auto done = checkLabels(part.value, copies.count, place + ".label"); !done) return done;
    for (int copy = 1; copy <= copies.count; ++copy) {
      JsonMember one{fmt::format("{}_{}", name, copy), part.value};
      mirror(one.value, planesOfCopy(mirrored, copy));
      numberCopies(one.value, copy, copies.count);
      labelCopy(one.value, name, copy, copies.count);
      noteCopy("parts", name, one.key, copy);
      unfolded.push_back(std::move(one));
    }
    return {};
  }

  /// A list of labels has one for each copy.
  static Result<void> checkLabels(const JsonNode& part, int count, const std::string& place) {
    const JsonNode* label = part.find("label");
    if (label == nullptr || !label->is(Type::list)) return {};
    const bool words = std::ranges::all_of(
        label->members, [](const JsonMember& m) { return m.value.is(Type::text); });
    if (words && static_cast<int>(label->members.size()) == count) return {};
    return bad(fmt::format("the list has {} labels for {} copies", label->members.size(), count),
               place, "give each copy one, or one for all without a list");
  }

  /// A copy that is the only one needs no number.
  static void labelCopy(JsonNode& part, const std::string& name, int copy, int copies) {
    JsonNode* label = part.find("label");
    if (copies == 1 && label == nullptr) {
      std::string words = name;
      std::ranges::replace(words, '_', ' ');
      part.set("label", JsonNode::ofText(words));
    }
    if (label == nullptr || (copies == 1 && label->is(Type::text))) return;
    if (label->is(Type::list)) {
      const JsonNode own = label->members[static_cast<std::size_t>(copy - 1)].value;
      *label = own;
    } else if (label->is(Type::text)) {
      label->text += fmt::format(" {}", copy);
    }
  }

  /// Remembers where a copy was written; what it is a copy of may itself be of a sub-assembly.
  void noteCopy(const std::string& section, const std::string& of, const std::string& name,
                int copy) {
    const auto whole = result_.authored.find(section + "." + of);
    AuthoredPlace from = whole == result_.authored.end()
                             ? AuthoredPlace{section + "." + oneLine(of), {}, {}, {}}
                             : whole->second;
    if (!from.copy.empty()) from.copy += ", ";
    from.copy += fmt::format("copy {}", copy);
    result_.authored[section + "." + name] = std::move(from);
  }

  static void mirror(JsonNode& part, const std::vector<MirrorPlane>& planes) {
    MirrorPlacing placing;
    for (const MirrorPlane& plane : planes) {
      AxisPlacing& axis = placing.axes[static_cast<std::size_t>(plane.across)];
      axis = axis.afterMirrorAt(plane.at);
    }
    placing.placePart(part);
  }

  static Result<void> mirrorOwn(JsonNode& part, const std::string& place) {
    const JsonNode* node = part.find("mirror");
    if (node == nullptr) return {};
    const auto planes = mirrorPlanes(*node, "", place + ".mirror");
    if (!planes) return tl::unexpected(planes.error());
    part.erase("mirror");
    mirror(part, *planes);
    return {};
  }

  /// A list of parts with copies in place of what is repeated, and without what is left out.
  [[nodiscard]] JsonNode listOf(const std::vector<std::string>& parts) const {
    JsonNode list;
    list.type = Type::list;
    for (const std::string& part : parts) {
      for (const std::string& name : names_.standsFor(part)) {
        list.members.push_back({"", JsonNode::ofText(name)});
      }
    }
    return list;
  }

  [[nodiscard]] static std::vector<std::string> textsOf(const JsonNode& list) {
    std::vector<std::string> texts;
    for (const JsonMember& member : list.members) texts.push_back(member.value.text);
    return texts;
  }

  Result<void> joints() {
    JsonNode* list = result_.document.find("joints");
    if (list == nullptr || !list->is(Type::object)) return {};
    std::vector<JsonMember> unfolded;
    for (JsonMember& joint : list->members) {
      if (!joint.value.is(Type::object)) {
        unfolded.push_back(std::move(joint));
        continue;
      }
      if (auto done = unfoldJoint(joint, unfolded); !done) return done;
    }
    list->members = std::move(unfolded);
    return {};
  }

  /// The parts that fill the joint's roles one after the other, each in a joint of its own.
  struct Followed {
    std::vector<std::pair<std::string, std::vector<std::string>>> parts;  ///< role, its parts
    bool gone = false;                                                    ///< a mate is left out
  };

  Result<void> unfoldJoint(JsonMember& joint, std::vector<JsonMember>& unfolded) {
    const std::string place = "joints." + oneLine(joint.key);
    const auto there = isThere(joint.value, place);
    if (!there) return tl::unexpected(there.error());
    if (!*there) return {};
    const JsonNode* kindName = joint.value.find("kind");
    const JointKind* kind = kindName == nullptr ? nullptr : jointKindNamed(kindName->text);
    if (kind == nullptr) return keep(joint, unfolded);
    const auto followed = follow(*kind, joint.value, place);
    if (!followed) return tl::unexpected(followed.error());
    if (followed->gone) return {};
    if (followed->parts.empty()) return keep(joint, unfolded);
    const std::size_t copies = followed->parts.front().second.size();
    for (std::size_t copy = 0; copy < copies; ++copy) {
      JsonMember one{fmt::format("{}_{}", joint.key, copy + 1), joint.value};
      for (const auto& [role, parts] : followed->parts) {
        one.value.set(role, JsonNode::ofText(parts[copy]));
      }
      numberCopies(one.value, static_cast<int>(copy) + 1, static_cast<int>(copies));
      noteCopy("joints", joint.key, one.key, static_cast<int>(copy) + 1);
      unfolded.push_back(std::move(one));
    }
    return {};
  }

  /// Fills roles of many with the copies of what they name, and finds what the joint is repeated
  /// for: copies, or a list where one part is needed.
  [[nodiscard]] Result<Followed> follow(const JointKind& kind, JsonNode& joint,
                                        const std::string& place) const {
    Followed followed;
    for (const Role& role : kind.roles()) {
      const std::string name(role.name);
      const JsonNode* mate = joint.find(name);
      if (mate == nullptr) continue;
      const bool isList = mate->is(Type::list);
      if (isList && mate->members.empty()) continue;  // the reader tells of it
      const std::vector<std::string> authored =
          isList ? textsOf(*mate) : std::vector<std::string>{mate->text};
      JsonNode parts = listOf(authored);
      followed.gone = followed.gone || parts.members.empty();
      const bool repeated = isList || names_.isRepeated(mate->text);
      if (!repeated) continue;
      if (role.many) {
        joint.set(name, std::move(parts));
        continue;
      }
      followed.parts.emplace_back(name, textsOf(parts));
      const std::size_t first = followed.parts.front().second.size();
      if (first == parts.members.size()) continue;
      return bad(fmt::format("{} names {} parts and {} names {}", inQuotes(name),
                             parts.members.size(), inQuotes(followed.parts.front().first), first),
                 place, "where both are repeated, each part is joined to the one of its number");
    }
    return followed;
  }

  Result<void> hardware() {
    JsonNode* list = result_.document.find("hardware");
    if (list == nullptr || !list->is(Type::object)) return {};
    std::vector<JsonMember> unfolded;
    for (JsonMember& goods : list->members) {
      const std::string place = "hardware." + oneLine(goods.key);
      if (goods.value.is(Type::object)) {
        const auto there = isThere(goods.value, place);
        if (!there) return tl::unexpected(there.error());
        if (!*there) continue;
        if (JsonNode* count = goods.value.find("count");
            count != nullptr && count->is(Type::text)) {
          const auto number = numbers_.countOf(*count, kMostCopies, place + ".count");
          if (!number) return tl::unexpected(number.error());
          if (*number == 0) continue;
          *count = JsonNode::ofNumber(std::to_string(*number));
        }
        if (JsonNode* holds = goods.value.find("holds");
            holds != nullptr && holds->is(Type::list)) {
          *holds = listOf(textsOf(*holds));
          if (holds->members.empty()) goods.value.erase("holds");
        }
      }
      unfolded.push_back(std::move(goods));
    }
    list->members = std::move(unfolded);
    return joinHardwareRows(*list, result_.authored);
  }

  void tapers() {
    JsonNode* list = result_.document.find("tapers");
    if (list == nullptr) return;
    for (JsonMember& taper : list->members) {
      JsonNode* parts = taper.value.find("parts");
      if (parts != nullptr && parts->is(Type::list)) *parts = listOf(textsOf(*parts));
    }
    std::erase_if(list->members, [](const JsonMember& taper) {
      const JsonNode* parts = taper.value.find("parts");
      return parts != nullptr && parts->is(Type::list) && parts->members.empty();
    });
  }

  /// Leaves out what is recorded of parts that are not there now; the file keeps it.
  void dropUnknown(const std::vector<std::string>& path) {
    JsonNode* list = &result_.document;
    for (const std::string& key : path) {
      list = list->find(key);
      if (list == nullptr) return;
    }
    std::erase_if(list->members, [&](const JsonMember& record) {
      if (!names_.isLeftOut(record.key)) return false;
      const auto at = std::ranges::lower_bound(result_.setAside, record.key);
      if (at == result_.setAside.end() || *at != record.key)
        result_.setAside.insert(at, record.key);
      return true;
    });
  }

  FlatDocument flat_;
  FixedNumbers numbers_;
  Unfolded result_;
  CopyNames names_;
};

bool uses(const JsonNode& document, std::string_view section,
          std::initializer_list<std::string_view> keys) {
  const JsonNode* list = document.find(section);
  if (list == nullptr) return false;
  return std::ranges::any_of(list->members, [&](const JsonMember& entry) {
    return std::ranges::any_of(keys, [&](std::string_view key) {
      const JsonNode* value = entry.value.find(key);
      return value != nullptr && (key != "count" || value->is(Type::text));
    });
  });
}

/// True where a list stands in a role of one part.
bool listsWhereOneIsNeeded(const JsonNode& document) {
  const JsonNode* list = document.find("joints");
  if (list == nullptr) return false;
  return std::ranges::any_of(list->members, [](const JsonMember& joint) {
    const JsonNode* name = joint.value.find("kind");
    const JointKind* kind = name == nullptr ? nullptr : jointKindNamed(name->text);
    if (kind == nullptr) return false;
    return std::ranges::any_of(kind->roles(), [&](const Role& role) {
      const JsonNode* mate = joint.value.find(std::string(role.name));
      return !role.many && mate != nullptr && mate->is(Type::list);
    });
  });
}

}  // namespace

std::string Unfolded::authoredPlace(const std::string& place) const {
  return joinery::authoredPlace(authored, place);
}

Result<std::optional<Unfolded>> unfold(const JsonNode& document, const AssemblyFiles& files) {
  if (auto fine = checkAuthoredNames(document); !fine) return tl::unexpected(fine.error());
  const bool assembled = document.find("assemblies") != nullptr || document.find("uses") != nullptr;
  const bool chosen = hasChoices(document);
  if (!assembled && !chosen && !uses(document, "parts", {"when", "repeat", "mirror"}) &&
      !uses(document, "joints", {"when"}) && !uses(document, "hardware", {"when", "count"}) &&
      !listsWhereOneIsNeeded(document)) {
    return std::optional<Unfolded>();
  }
  FlatDocument flat{document, {}, {}, {}};
  if (auto done = resolveChoices(flat.document); !done) return tl::unexpected(done.error());
  if (assembled) {
    if (auto fine = checkUses(document); !fine) return tl::unexpected(fine.error());
    const auto descriptions = AssemblyTable::of(document, files);
    if (!descriptions) return tl::unexpected(descriptions.error());
    auto written = writeOutUses(flat.document, **descriptions);
    if (!written) return tl::unexpected(written.error());
    flat = std::move(*written);
  }
  auto unfolded = Unfolder(std::move(flat)).run();
  if (!unfolded) return tl::unexpected(unfolded.error());
  return std::optional(std::move(*unfolded));
}

}  // namespace dryfit::joinery

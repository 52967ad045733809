#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "joinery/base/plain_text.h"
#include "joinery/file/authored_part.h"
#include "joinery/file/face_texts.h"
#include "joinery/file/name_uses.h"
#include "joinery/file/named_part.h"
#include "joinery/file/part_edits.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

/// Takes the names of a part out of a role, of holds, of a taper; true where nothing remains.
bool withoutPart(JsonNode& node, const NamedPart& part, const std::string& scope) {
  if (node.is(Type::text)) return part.at(node.text, scope).has_value();
  std::erase_if(node.members, [&](const JsonMember& member) {
    return part.at(member.value.text, scope).has_value();
  });
  return node.members.empty();
}

void dropRecords(JsonNode& document, const NamedPart& part, std::vector<std::string>* places) {
  JsonNode* measured = document.find("measured");
  JsonNode* lists[] = {measured == nullptr ? nullptr : measured->find("parts"),
                       document.find("marks")};
  const char* words[] = {"measured.parts.", "marks."};
  for (std::size_t i = 0; i < 2; ++i) {
    if (lists[i] == nullptr) continue;
    std::erase_if(lists[i]->members, [&](const JsonMember& record) {
      const bool its = part.at(record.key, "").has_value();
      if (its && places != nullptr) places->push_back(words[i] + record.key);
      return its;
    });
  }
}

/// Takes its name out of the lists in which it stands beside others.
void dropFromLists(JsonNode& root, const NamedPart& part, const std::string& scope) {
  const auto drop = [&](JsonNode* node) {
    if (node != nullptr && node->is(Type::list)) (void)withoutPart(*node, part, scope);
  };
  for (const char* section : {"joints", "hardware", "tapers"}) {
    JsonNode* list = root.find(section);
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

/// The document and each of its descriptions, with their names.
template <class Visit>
void eachScope(JsonNode& document, const Visit& visit) {
  visit(document, std::string());
  JsonNode* list = document.find("assemblies");
  if (list == nullptr) return;
  for (JsonMember& description : list->members) {
    if (description.value.find("file") == nullptr) visit(description.value, description.key);
  }
}

/// The joints in whose roles the part stands alone, by their places.
std::vector<std::string> jointsOf(JsonNode& document, const NamedPart& part) {
  std::vector<std::string> places;
  visitNames(document, {[](JsonNode&, const std::string&, const std::string&) {},
                        [&](JsonNode& text, const std::string& place, const std::string& scope) {
                          const std::string joints =
                              scope.empty() ? "joints." : "assemblies." + scope + ".joints.";
                          if (!place.starts_with(joints) || !part.at(text.text, scope)) return;
                          const std::string joint = place.substr(0, place.find('.', joints.size()));
                          JsonNode role = *nodeAt(document, place);
                          if (withoutPart(role, part, scope) &&
                              std::ranges::find(places, joint) == places.end()) {
                            places.push_back(joint);
                          }
                        }});
  return places;
}

/// "rail_left" of the piece; "drawer.corner" of a description.
std::string jointName(const std::string& place) {
  constexpr std::string_view kDescribed = "assemblies.", kJoints = ".joints.";
  if (!place.starts_with(kDescribed)) return place.substr(place.find('.') + 1);
  std::string name = place.substr(kDescribed.size());
  return name.replace(name.find(kJoints), kJoints.size(), ".");
}

/// What takes the place of a name of the part: the text of its own span within its description,
/// whose copies may differ; elsewhere the number that stands for it now.
class InItsPlace {
 public:
  InItsPlace(const JsonNode& entry, const NamedPart& part,
             const std::map<std::string, double>& values, double unit)
      : entry_(entry), part_(part), values_(values), unit_(unit) {}

  [[nodiscard]] std::string of(std::string_view word, const std::string& scope) {
    std::string whole(word);
    const auto at = part_.at(word, scope);
    if (!at) return whole;
    if (!part_.part().scope.empty() && scope == part_.part().scope) return fromSpans(whole);
    const auto value = values_.find(whole);
    if (value == values_.end()) {
      lost = whole;
      return "0";
    }
    const double value6 = std::round(value->second / unit_ * 1e6) / 1e6;
    return value6 < 0 ? fmt::format("(0 - {:.10g})", -value6) : fmt::format("{:.10g}", value6);
  }

  std::string lost;  ///< a name that nothing can take the place of

 private:
  std::string fromSpans(const std::string& word) {
    const std::size_t dot = word.find('.');
    const auto text = dot == std::string::npos
                          ? std::nullopt
                          : faceText(entry_, word.substr(0, dot), word.substr(dot + 1));
    constexpr int kDeepest = 8;
    if (!text || depth_ == kDeepest) {
      lost = word;
      return "0";
    }
    ++depth_;  // its own spans may name its own sizes
    std::string done =
        withWords(*text, [&](std::string_view own) { return of(own, part_.part().scope); });
    --depth_;
    return done;
  }

  const JsonNode& entry_;
  const NamedPart& part_;
  const std::map<std::string, double>& values_;
  double unit_;
  int depth_ = 0;
};

}  // namespace

Result<HangsOn> hangingOn(const ModelFile& file, const std::string& name) {
  const auto own = authored(file, name);
  if (!own) return tl::unexpected(own.error());
  JsonNode document = file.document();
  const NamedPart part(document, *own);
  HangsOn hangs;
  const std::vector<std::string> joints = jointsOf(document, part);
  for (const std::string& joint : joints) hangs.joints.push_back(jointName(joint));
  const auto isGone = [&](const std::string& place) {
    if (place.starts_with(own->place() + ".")) return true;
    return std::ranges::any_of(
        joints, [&](const std::string& joint) { return place.starts_with(joint + "."); });
  };
  visitNames(document, {[&](JsonNode& text, const std::string& place, const std::string& scope) {
                          if (!isGone(place) && part.isIn(text.text, scope)) {
                            hangs.expressions.push_back(place);
                          }
                        },
                        [&](JsonNode& text, const std::string& place, const std::string& scope) {
                          if (!isGone(place) && part.at(text.text, scope))
                            hangs.records.push_back(place);
                        }});
  dropRecords(document, part, &hangs.records);
  return hangs;
}

Result<void> erasePart(ModelFile& file, const std::string& name,
                       const std::map<std::string, double>& values) {
  const auto own = authored(file, name);
  if (!own) return tl::unexpected(own.error());
  const double unit = millimetresIn(file.model().unit);
  return file.change([&](JsonNode& document) -> Result<void> {
    const NamedPart part(document, *own);
    for (const std::string& joint : jointsOf(document, part)) {
      const std::size_t dot = joint.rfind('.');
      nodeAt(document, joint.substr(0, dot))->erase(joint.substr(dot + 1));
    }
    JsonNode& parts = *scopeNode(document, own->scope)->find("parts");
    const JsonNode entry = *parts.find(own->name);
    parts.erase(own->name);
    InItsPlace instead(entry, part, values, unit);
    visitNames(document, {[&](JsonNode& text, const std::string&, const std::string& scope) {
                            if (!part.isIn(text.text, scope)) return;
                            text = authoredNode(withWords(text.text, [&](std::string_view word) {
                              return instead.of(word, scope);
                            }));
                          },
                          [](JsonNode&, const std::string&, const std::string&) {}});
    // What lies in lists last: a role that is one part alone went with its joint.
    eachScope(document,
              [&](JsonNode& root, const std::string& scope) { dropFromLists(root, part, scope); });
    dropRecords(document, part, nullptr);
    if (instead.lost.empty()) return {};
    return fail(ErrorCode::badModel, inQuotes(instead.lost) + " has no number of its own",
                own->name, "give what hangs on it another number first");
  });
}

}  // namespace dryfit::joinery

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <set>

#include "joinery/base/face.h"
#include "joinery/base/plain_text.h"
#include "joinery/base/unit.h"
#include "joinery/file/assembly_edits.h"
#include "joinery/file/authored_part.h"
#include "joinery/file/coordinates.h"
#include "joinery/file/expression_words.h"
#include "joinery/file/name_steps.h"
#include "joinery/file/name_uses.h"
#include "joinery/file/taken_names.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;
using Kind = NameStep::Kind;

constexpr std::array<const char*, 3> kAxisNames{"x", "y", "z"};
constexpr std::array<const char*, 3> kNear{"left", "front", "bottom"};
constexpr std::array<const char*, 3> kFar{"right", "back", "top"};

/// The opening along one axis.
struct Between {
  std::string from, to;      ///< faces of parts that stay; empty: none
  double low = 0, high = 0;  ///< of what is gathered, in the unit of the file
};

class Gathering {
 public:
  Gathering(JsonNode& document, std::string name, const std::map<std::string, double>& values,
            double unit)
      : document_(document),
        steps_(document),
        name_(std::move(name)),
        values_(values),
        unit_(unit),
        description_(JsonNode::ofObject()) {}

  Result<void> run(const std::vector<std::string>& parts) {
    for (const std::string& part : parts) {
      const auto steps = steps_.of(part, "");
      if (steps.empty()) return missing(part);
      goes_.insert(steps.front().name);
    }
    measure();
    if (auto fine = takeGroups(); !fine) return fine;
    findWhatIsTheirs();
    nameThemAnew();
    for (const char* section : {"groups", "parts", "uses", "joints", "tapers", "hardware"}) {
      take(section);
    }
    findOpening();
    placeInOpening();
    nameWhatStays();
    write();
    return {};
  }

 private:
  static Result<void> missing(const std::string& part) {
    return fail(ErrorCode::unknownName, "there is no part " + inQuotes(part), oneLine(part));
  }
  /// Where the name of something that goes begins in a name.
  [[nodiscard]] std::optional<std::size_t> goesAt(std::string_view word,
                                                  const std::string& scope) const {
    const auto steps = steps_.of(word, scope);
    if (steps.empty() || !steps.front().scope.empty() || !goes_.contains(steps.front().name)) {
      return std::nullopt;
    }
    return steps.front().at;
  }
  [[nodiscard]] std::string text(double number) const { return fmt::format("{:.10g}", number); }

  /// How far what goes reaches along each axis.
  void measure() {
    for (std::size_t i = 0; i < 3; ++i) {
      Between& axis = opening_[i];
      axis = {{}, {}, 1e300, -1e300};
      for (const auto& [word, value] : values_) {
        const std::size_t dot = word.rfind('.');
        if (dot == std::string::npos || !goesAt(word, "")) continue;
        const auto steps = steps_.of(word, "");
        if (steps.back().kind != Kind::part) continue;
        const double at = std::round(value / unit_ * 1e6) / 1e6;
        const std::string end = word.substr(dot + 1);
        if (end == kNear[i]) axis.low = std::min(axis.low, at);
        if (end == kFar[i]) axis.high = std::max(axis.high, at);
      }
    }
  }

  /// Groups go with all that are in them, or not at all.
  Result<void> takeGroups() {
    JsonNode* groups = document_.find("groups");
    const JsonNode* parts = document_.find("parts");
    if (parts == nullptr) return {};
    std::set<std::string> inThem, others;
    for (const JsonMember& part : parts->members) {
      const JsonNode* group = part.value.find("group");
      if (group != nullptr) (goes_.contains(part.key) ? inThem : others).insert(group->text);
    }
    if (groups != nullptr) {
      for (const JsonMember& group : groups->members) {
        const JsonNode* within = group.value.find("within");
        if (within == nullptr) continue;
        (inThem.contains(group.key) ? inThem : others).insert(within->text);
      }
    }
    for (const std::string& group : inThem) {
      if (!others.contains(group)) continue;
      return fail(ErrorCode::badModel, "only some of the group " + inQuotes(group) + " are chosen",
                  "groups." + group, "choose all of them, or take these out of it");
    }
    goesBySection_["groups"] = inThem;
    return {};
  }

  /// Joints, tapers and hardware that name nothing but what goes.
  void findWhatIsTheirs() {
    std::map<std::string, std::map<std::string, bool>> theirs;
    visitNames(document_, {[](JsonNode&, const std::string&, const std::string&) {},
                           [&](JsonNode& name, const std::string& place, const std::string& scope) {
                             if (!scope.empty()) return;
                             const std::size_t dot = place.find('.');
                             const std::string section = place.substr(0, dot);
                             const std::string entry =
                                 place.substr(dot + 1, place.find('.', dot + 1) - dot - 1);
                             const auto all = theirs[section].emplace(entry, true).first;
                             all->second = all->second && goesAt(name.text, "");
                           }});
    for (const char* section : {"joints", "tapers", "hardware"}) {
      for (const auto& [entry, all] : theirs[section]) {
        if (all) goesBySection_[section].insert(entry);
      }
    }
    goesBySection_["parts"] = goes_;
    goesBySection_["uses"] = goes_;
  }

  [[nodiscard]] bool goesWhole(const std::string& place) const {
    const std::size_t dot = place.find('.');
    const auto section = goesBySection_.find(place.substr(0, dot));
    return section != goesBySection_.end() && dot != std::string::npos &&
           section->second.contains(place.substr(dot + 1, place.find('.', dot + 1) - dot - 1));
  }

  /// What stays calls it "name.part" from now on.
  void nameThemAnew() {
    const auto anew = [&](std::string_view word, const std::string& scope) {
      std::string whole(word);
      if (const auto at = goesAt(word, scope)) whole.insert(*at, name_ + ".");
      return whole;
    };
    visitNames(document_, {[&](JsonNode& node, const std::string& place, const std::string& scope) {
                             if (scope.empty() && goesWhole(place)) return;
                             node.text = withWords(node.text, [&](std::string_view word) {
                               return anew(word, scope);
                             });
                           },
                           [&](JsonNode& node, const std::string& place, const std::string& scope) {
                             if (scope.empty() && goesWhole(place)) return;
                             node.text = anew(node.text, scope);
                           }});
    JsonNode* measured = document_.find("measured");
    for (JsonNode* list :
         {document_.find("marks"), measured == nullptr ? nullptr : measured->find("parts")}) {
      if (list == nullptr) continue;
      for (JsonMember& entry : list->members) entry.key = anew(entry.key, "");
    }
  }

  void take(const char* section) {
    JsonNode* list = document_.find(section);
    const auto own = goesBySection_.find(section);
    if (list == nullptr || own == goesBySection_.end()) return;
    for (JsonMember& entry : list->members) {
      if (!own->second.contains(entry.key)) continue;
      description_.objectAt(section).set(entry.key, entry.value);
    }
    std::erase_if(list->members,
                  [&](const JsonMember& entry) { return own->second.contains(entry.key); });
    if (list->members.empty() && section != std::string("parts")) document_.erase(section);
  }

  /// True for a face, along an axis, of a part that stays and is one part for all copies.
  [[nodiscard]] bool isOutsideFace(std::string_view word, std::optional<Axis> axis) const {
    if (!isFace(word, axis) || goesAt(word, "")) return false;
    return word.find("_copy") == std::string_view::npos &&
           word.find("_next") == std::string_view::npos;
  }
  [[nodiscard]] bool isFace(std::string_view word, std::optional<Axis> axis) const {
    const std::size_t dot = word.rfind('.');
    const auto steps = steps_.of(word, "");
    if (dot == std::string_view::npos || steps.empty() || steps.back().kind != Kind::part) {
      return false;
    }
    const auto face = faceNamed(std::string(word.substr(dot + 1)));
    return face && (!axis || axisOf(*face) == *axis);
  }

  void eachCoordinate(const CoordinateVisitor& visit) {
    for (const char* section : {"groups", "parts", "uses"}) {
      JsonNode* list = description_.find(section);
      if (list == nullptr) continue;
      for (JsonMember& entry : list->members) visitCoordinates(entry.value, visit);
    }
  }

  /// The faces that most of it begins and ends at.
  void findOpening() {
    std::array<std::map<std::string, int>, 3> begins, ends;
    eachCoordinate([&](JsonNode& node, Axis axis, const std::string& end) {
      if (!node.is(Type::text) || end.empty()) return;
      (void)withWords(node.text, [&](std::string_view word) {
        const auto i = static_cast<std::size_t>(axis);
        if (isOutsideFace(word, axis)) ++(end == "from" ? begins : ends)[i][std::string(word)];
        return std::string(word);
      });
    });
    const auto most = [](const std::map<std::string, int>& words) {
      const auto best =
          std::ranges::max_element(words, {}, [](const auto& word) { return word.second; });
      return best == words.end() ? std::string() : best->first;
    };
    for (std::size_t i = 0; i < 3; ++i) {
      opening_[i].from = most(begins[i]);
      opening_[i].to = most(ends[i]);
      const double from = at(opening_[i].from, -1e300), to = at(opening_[i].to, 1e300);
      if (from >= to) opening_[i].to.clear();
    }
  }
  [[nodiscard]] double at(const std::string& word, double otherwise) const {
    const auto value = values_.find(word);
    return value == values_.end() ? otherwise : std::round(value->second / unit_ * 1e6) / 1e6;
  }

  void placeInOpening() {
    eachCoordinate([&](JsonNode& node, Axis axis, const std::string&) {
      const auto i = static_cast<std::size_t>(axis);
      const Between& own = opening_[i];
      bool hangs = false;
      const std::string placed = withWords(node.text, [&](std::string_view word) {
        hangs = hangs || isFace(word, std::nullopt);
        if (word == own.from) return fmt::format("opening.{}", kNear[i]);
        if (word == own.to) return fmt::format("opening.{}", kFar[i]);
        return std::string(word);
      });
      if (hangs) {
        node.text = placed;
      } else if (own.from.empty() && own.to.empty() && own.low <= own.high) {
        // Nothing there says where it stands but numbers: they count from the opening.
        node = JsonNode::ofText(movedFrom(node.text, kNear[i], own.low));
      }
    });
  }
  [[nodiscard]] std::string movedFrom(const std::string& from, const char* face, double low) const {
    std::string near = fmt::format("opening.{}", face);
    double number = 0;
    const char* const end = from.data() + from.size();
    const auto read = std::from_chars(from.data(), end, number);
    if (read.ec == std::errc() && read.ptr == end) {
      const double by = number - low;
      if (std::abs(by) < 1e-12) return near;
      return fmt::format("{} {} {:.15g}", near, by < 0 ? "-" : "+", std::abs(by));
    }
    std::string moved = fmt::format("{} + ({})", near, from);
    if (low != 0) moved += fmt::format(" {} {}", low < 0 ? "+" : "-", text(std::abs(low)));
    return moved;
  }

  /// Parts that stay become neighbours, dimensions become values.
  void nameWhatStays() {
    std::set<std::string> taken = takenNames(description_);
    const auto anew = [&](std::string_view word) {
      std::string whole(word);
      const auto steps = steps_.of(word, "");
      if (steps.empty() || goesAt(word, "")) return whole;
      if (steps.front().kind == Kind::dimension) {
        if (isLength(whole) && values_.contains(whole)) given_.insert(whole);
        return whole;
      }
      // One part for all copies of what names it.
      if (steps.back().kind != Kind::part || whole.find("_copy") != std::string::npos ||
          whole.find("_next") != std::string::npos) {
        return whole;
      }
      const std::string part = whole.substr(0, steps.back().at + steps.back().length);
      auto near = neighbours_.find(part);
      if (near == neighbours_.end()) {
        std::string wish = part;
        std::ranges::replace(wish, '.', '_');
        while (taken.contains(wish)) wish += "_there";
        taken.insert(wish);
        near = neighbours_.emplace(part, wish).first;
      }
      return near->second + whole.substr(part.size());
    };
    visitNames(description_, {[&](JsonNode& node, const std::string&, const std::string&) {
                                node.text = withWords(node.text, anew);
                              },
                              [&](JsonNode& node, const std::string&, const std::string&) {
                                node.text = anew(node.text);
                              }});
  }
  /// True for a dimension of the piece that is a length, and no question of a count or a word.
  [[nodiscard]] bool isLength(const std::string& dimension) const {
    const JsonNode* list = document_.find("dimensions");
    const JsonNode* own = list == nullptr ? nullptr : list->find(dimension);
    return own != nullptr && own->find("quantity") == nullptr && own->find("options") == nullptr;
  }

  void write() {
    JsonNode whole = JsonNode::ofObject(), use = JsonNode::ofObject();
    use.set("of", JsonNode::ofText(name_));
    JsonNode& opening = use.objectAt("opening");
    for (std::size_t i = 0; i < 3; ++i) {
      const Between& own = opening_[i];
      if (own.low > own.high) continue;
      JsonNode& span = opening.objectAt(kAxisNames[i]);
      const double from = at(own.from, own.low), to = at(own.to, own.high);
      if (!own.from.empty()) span.set("from", JsonNode::ofText(own.from));
      if (!own.to.empty()) span.set("to", JsonNode::ofText(own.to));
      if (own.from.empty() && own.to.empty()) span.set("from", JsonNode::ofNumber(text(own.low)));
      if (own.from.empty() || own.to.empty()) {
        const double size = to > from ? to - from : own.high - own.low;
        span.set("size", JsonNode::ofNumber(text(size)));
      }
    }
    if (!neighbours_.empty()) {
      JsonNode names;
      names.type = Type::list;
      for (const auto& [part, neighbour] : neighbours_) {
        names.members.push_back({"", JsonNode::ofText(neighbour)});
        use.objectAt("neighbours").set(neighbour, JsonNode::ofText(part));
      }
      whole.set("neighbours", std::move(names));
    }
    for (const std::string& dimension : given_) {
      const double now = values_.at(dimension) / unit_;
      whole.objectAt("dimensions").set(dimension, JsonNode::ofNumber(fmt::format("{:.10g}", now)));
      use.objectAt("values").set(dimension, JsonNode::ofText(dimension));
    }
    for (JsonMember& section : description_.members) {
      whole.set(section.key, std::move(section.value));
    }
    document_.objectAt("assemblies").set(name_, std::move(whole));
    document_.objectAt("uses").set(name_, std::move(use));
  }

  JsonNode& document_;
  NameSteps steps_;
  std::string name_;
  const std::map<std::string, double>& values_;
  double unit_;
  JsonNode description_;
  std::set<std::string> goes_;  ///< parts and uses of the piece
  std::map<std::string, std::set<std::string>> goesBySection_;
  std::array<Between, 3> opening_;
  std::map<std::string, std::string> neighbours_;  ///< what they are called, by the part
  std::set<std::string> given_;                    ///< dimensions that become values
};

}  // namespace

Result<void> makeAssembly(ModelFile& file, const std::vector<std::string>& parts,
                          const std::string& name, const std::map<std::string, double>& values) {
  if (parts.empty()) {
    return fail(ErrorCode::badModel, "no part is chosen", "assemblies." + oneLine(name),
                "choose the parts that are to be a sub-assembly");
  }
  for (const std::string& part : parts) {
    if (!hasPart(file, part)) return noPart(file, part);
  }
  if (takenNames(file.document()).contains(name) || hasPart(file, name)) {
    return fail(ErrorCode::badModel, inQuotes(name) + " is taken", "assemblies." + oneLine(name),
                "choose another name");
  }
  const double unit = millimetresIn(file.model().unit);
  return file.change([&](JsonNode& document) -> Result<void> {
    return Gathering(document, name, values, unit).run(parts);
  });
}

}  // namespace dryfit::joinery

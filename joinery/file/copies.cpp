#include "joinery/file/copies.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "joinery/base/plain_text.h"
#include "joinery/file/expression_words.h"
#include "joinery/file/mirrored.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

constexpr std::array<std::string_view, 3> kSpans{"length", "width", "thickness"};

/// One word of an expression with the numbers of a copy in it.
std::string numbered(std::string_view word, int copy, int copies) {
  if (word == "copy") return fmt::format("({})", copy);
  if (word == "copies") return fmt::format("({})", copies);
  std::string result;
  while (!word.empty()) {
    const std::size_t dot = word.find('.');
    std::string_view step = word.substr(0, dot);
    for (const auto& [end, number] : {std::pair("_copy", copy), std::pair("_next", copy + 1)}) {
      if (!step.ends_with(end)) continue;
      result += fmt::format("{}_{}", step.substr(0, step.size() - 5), number);
      step = {};
      break;
    }
    result += step;
    if (dot == std::string_view::npos) break;
    result += '.';
    word.remove_prefix(dot + 1);
  }
  return result;
}

tl::unexpected<Error> bad(std::string what, const std::string& place, std::string mend) {
  return fail(ErrorCode::badModel, std::move(what), place, std::move(mend));
}

}  // namespace

std::vector<std::string> Copies::names(const std::string& part) const {
  if (!repeated) return {part};
  std::vector<std::string> all;
  for (int i = 1; i <= count; ++i) all.push_back(fmt::format("{}_{}", part, i));
  return all;
}

void numberCopies(JsonNode& node, int copy, int copies) {
  if (node.is(Type::text)) {
    node.text =
        withWords(node.text, [&](std::string_view word) { return numbered(word, copy, copies); });
  }
  for (JsonMember& member : node.members) {
    // Words for people are left as they are.
    if (member.key != "note" && member.key != "label") numberCopies(member.value, copy, copies);
  }
}

namespace {

/// The two faces between which something is spread, and the axis along which.
struct Between {
  const JsonNode* along = nullptr;
  const JsonNode *from = nullptr, *to = nullptr, *between = nullptr;
};

Result<Between> betweenOf(const JsonNode& spread, bool openings, const std::string& place) {
  Between faces;
  if (spread.is(Type::object)) {
    for (const JsonMember& member : spread.members) {
      if (member.key == "along") {
        faces.along = &member.value;
      } else if (member.key == "from") {
        faces.from = &member.value;
      } else if (member.key == "to") {
        faces.to = &member.value;
      } else if (openings && member.key == "between") {
        faces.between = &member.value;
      } else {
        return bad(
            "unknown key " + inQuotes(member.key), place,
            openings ? "known here: along, from, to, between" : "known here: along, from, to");
      }
    }
  }
  if (faces.along == nullptr || faces.from == nullptr || faces.to == nullptr) {
    return bad("along, from and to are needed here", place,
               "write the axis and the two faces between which they stand");
  }
  if (openings && !axisNamed(faces.along->text)) {
    return bad("there is no axis " + inQuotes(faces.along->text), place + ".along",
               "write x, y or z");
  }
  return faces;
}

}  // namespace

Result<Repeat> repeatIn(const JsonNode& node, FixedNumbers& numbers, const std::string& place) {
  Repeat repeat;
  const bool plain = !node.is(Type::object);
  const JsonNode* count = plain ? &node : node.find("count");
  if (!plain) {
    for (const JsonMember& member : node.members) {
      if (member.key == "count" || member.key == "spread" || member.key == "mirrored") continue;
      return bad("unknown key " + inQuotes(member.key), place,
                 "known here: count, spread, mirrored");
    }
    repeat.spread = node.find("spread");
    repeat.mirrored = node.find("mirrored");
  }
  if (repeat.mirrored != nullptr) {
    if (count == nullptr && repeat.spread == nullptr) {
      repeat.count = 1 << std::min<std::size_t>(
                         3, repeat.mirrored->is(Type::text) ? 1 : repeat.mirrored->members.size());
      return repeat;
    }
    return bad("a count or spread and 'mirrored' are both given", place,
               "the mirrors say how often it is there; give one of them");
  }
  if (count == nullptr) {
    return bad("the key 'count' is missing", place, "say how often it is there");
  }
  const auto number = numbers.countOf(*count, kMostCopies, plain ? place : place + ".count");
  if (!number) return tl::unexpected(number.error());
  repeat.count = *number;
  return repeat;
}

Result<std::vector<MirrorPlane>> mirrorPlanes(const JsonNode& node, const std::string& opening,
                                              const std::string& place) {
  std::vector<MirrorPlane> planes;
  const auto add = [&](const std::string& word, const JsonNode* at) -> Result<void> {
    const auto axis = axisNamed(word);
    if (!axis) return bad("there is no axis " + inQuotes(word), place, "write x, y or z");
    for (const MirrorPlane& plane : planes) {
      if (plane.across == *axis)
        return bad(inQuotes(word) + " is named twice", place, "once will do");
    }
    if (at == nullptr) {
      planes.push_back(
          {*axis, fmt::format("({0}{1} + {0}{2}) / 2", opening, nameOf(faceOf(*axis, false)),
                              nameOf(faceOf(*axis, true)))});
    } else if (at->is(Type::number) || at->is(Type::text)) {
      planes.push_back({*axis, at->text});
    } else {
      return bad("a number or an expression in quotes is needed here", place + "." + word,
                 "write where the plane of the mirror is");
    }
    return {};
  };
  const auto addAll = [&]() -> Result<void> {
    if (!node.is(Type::object) && !node.is(Type::list)) return add(node.text, nullptr);
    for (const JsonMember& member : node.members) {
      const bool plane = node.is(Type::object);
      if (auto done = plane ? add(member.key, &member.value) : add(member.value.text, nullptr);
          !done) {
        return done;
      }
    }
    return {};
  };
  if (opening.empty() && !node.is(Type::object)) {
    return bad("the plane of the mirror is missing", place, R"(write it as {"x": "width / 2"})");
  }
  if (auto done = addAll(); !done) return tl::unexpected(done.error());
  if (planes.empty()) {
    return bad("no plane is named", place, R"(write it as {"x": "width / 2"})");
  }
  return planes;
}

std::vector<MirrorPlane> planesOfCopy(const std::vector<MirrorPlane>& planes, int copy) {
  std::vector<MirrorPlane> own;
  for (std::size_t i = 0; i < planes.size(); ++i) {
    if (((copy - 1) >> i & 1) != 0) own.push_back(planes[i]);
  }
  return own;
}

Result<void> spreadOpenings(JsonNode& use, const JsonNode& spread, const std::string& place) {
  const auto faces = betweenOf(spread, true, place);
  if (!faces) return tl::unexpected(faces.error());
  JsonNode& opening = use.objectAt("opening");
  const std::string axis = faces->along->text;
  if (!opening.is(Type::object) || opening.find(axis) != nullptr) {
    return bad(fmt::format("the opening is placed twice along {}", axis), place,
               "leave it out of the opening");
  }
  const std::string between = faces->between == nullptr ? "0" : faces->between->text;
  const std::string size = fmt::format("(({1}) - ({0}) - (copies - 1) * ({2})) / copies",
                                       faces->from->text, faces->to->text, between);
  JsonNode span = JsonNode::ofObject();
  span.set("from", JsonNode::ofText(fmt::format("({}) + (copy - 1) * ({} + ({}))",
                                                faces->from->text, size, between)));
  span.set("size", JsonNode::ofText(size));
  opening.set(axis, std::move(span));
  return {};
}

Result<void> spreadCopies(JsonNode& part, const JsonNode& spread, const std::string& place) {
  const auto faces = betweenOf(spread, false, place);
  if (!faces) return tl::unexpected(faces.error());
  const JsonNode *along = faces->along, *from = faces->from, *to = faces->to;
  const std::string& here = place;
  for (const std::string_view name : kSpans) {
    JsonNode* span = part.find(name);
    const JsonNode* axis = span == nullptr ? nullptr : span->find("along");
    if (axis == nullptr || axis->text != along->text) continue;
    for (const char* key : {"from", "to", "centre"}) {
      if (span->find(key) == nullptr) continue;
      return bad(fmt::format("the {} is placed twice: by its '{}' and by the spread", name, key),
                 here, "leave out one of them");
    }
    std::string size;
    if (const JsonNode* own = span->find("size")) {
      size = own->text;
    } else if (const JsonNode* material = part.find("material"); name == "thickness") {
      size = (material == nullptr ? "" : material->text) + ".thickness";
    }
    if (size.empty()) return bad(fmt::format("the {} has no size", name), here, "give its 'size'");
    span->set("from",
              JsonNode::ofText(fmt::format(
                  "({0}) + (({1}) - ({0}) - copies * ({2})) * copy / (copies + 1) + (copy - "
                  "1) * ({2})",
                  from->text, to->text, size)));
    if (span->find("size") == nullptr) span->set("size", JsonNode::ofText(size));
    return {};
  }
  return bad("the part has no size along " + inQuotes(along->text), here, "write x, y or z");
}

}  // namespace dryfit::joinery

#include "joinery/file/openings.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "joinery/base/face.h"
#include "joinery/base/plain_text.h"
#include "joinery/file/expression_words.h"
#include "joinery/file/mirrored.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

constexpr std::string_view kOpening = "opening.";
constexpr std::array<const char*, 3> kAxisNames{"x", "y", "z"};
constexpr std::array<const char*, 3> kSizes{"width", "depth", "height"};

tl::unexpected<Error> bad(std::string what, const std::string& place, std::string mend) {
  return fail(ErrorCode::badModel, std::move(what), place, std::move(mend));
}

/// The axes of the opening that are named below a node.
void findNamed(const JsonNode& node, std::array<bool, 3>& named) {
  if (node.is(Type::text)) {
    (void)withWords(node.text, [&](std::string_view word) {
      if (word.starts_with(kOpening)) {
        const std::string side(word.substr(kOpening.size()));
        const auto size = std::ranges::find(kSizes, side);
        if (const auto face = faceNamed(side)) {
          named[static_cast<std::size_t>(axisOf(*face))] = true;
        } else if (size != kSizes.end()) {
          named[static_cast<std::size_t>(size - kSizes.begin())] = true;
        }
      }
      return std::string(word);
    });
  }
  for (const JsonMember& member : node.members) {
    if (member.key != "note" && member.key != "label") findNamed(member.value, named);
  }
}

/// The near face, the far face and the size along one axis.
Result<void> addSpan(const JsonNode& span, Axis axis, const std::string& prefix,
                     const std::string& place, std::vector<OpeningDimension>& all) {
  const auto text = [&](const char* key) -> std::string {
    const JsonNode* node = span.find(key);
    const bool given = node != nullptr && (node->is(Type::number) || node->is(Type::text));
    return given ? "(" + node->text + ")" : std::string();
  };
  std::string lo = text("from"), hi = text("to"), size = text("size"), centre = text("centre");
  const int given = int(!lo.empty()) + int(!hi.empty()) + int(!size.empty()) + int(!centre.empty());
  if (!span.is(Type::object) || given != 2 || span.members.size() != 2) {
    return bad("two of from, to, size and centre are needed here", place,
               R"(write it as {"from": "left_side.right", "to": "right_side.left"})");
  }
  const std::string near = prefix + std::string(nameOf(faceOf(axis, false)));
  const std::string far = prefix + std::string(nameOf(faceOf(axis, true)));
  const std::string across = prefix + kSizes[static_cast<std::size_t>(axis)];
  if (size.empty()) {
    size = centre.empty() ? far + " - " + near
           : lo.empty()   ? "2 * (" + hi + " - " + centre + ")"
                          : "2 * (" + centre + " - " + lo + ")";
  }
  if (lo.empty()) {
    lo = !hi.empty() ? far + " - " + across : centre + " - " + across + " / 2";
  }
  if (hi.empty()) hi = near + " + " + across;
  all.push_back({near, lo, place});
  all.push_back({far, hi, place});
  all.push_back({across, size, place});
  return {};
}

}  // namespace

Result<std::vector<OpeningDimension>> openingDimensions(const JsonNode* opening,
                                                        const std::string& prefix,
                                                        const std::string& place) {
  std::vector<OpeningDimension> all;
  if (opening == nullptr) return all;
  if (!opening->is(Type::object)) {
    return bad("an object { } of x, y and z is needed here", place,
               R"(write it as {"x": {"from": "left_side.right", "to": "right_side.left"}})");
  }
  for (const JsonMember& span : opening->members) {
    const auto axis = axisNamed(span.key);
    if (!axis) {
      return bad("unknown key " + inQuotes(span.key), place, "an opening has x, y and z");
    }
    auto done =
        addSpan(span.value, *axis, prefix + std::string(kOpening), place + "." + span.key, all);
    if (!done) return tl::unexpected(done.error());
  }
  return all;
}

Result<void> checkOpening(const JsonNode* opening, const JsonNode& description,
                          const std::string& place) {
  std::array<bool, 3> named{};
  findNamed(description, named);
  for (std::size_t i = 0; i < 3; ++i) {
    if (!named[i] || (opening != nullptr && opening->find(kAxisNames[i]) != nullptr)) continue;
    return bad(fmt::format("the opening has no {}, which the sub-assembly names", kAxisNames[i]),
               place, "say from where to where it goes");
  }
  return {};
}

}  // namespace dryfit::joinery

#include "joinery/file/copies.h"

#include <fmt/format.h>

#include <array>
#include <string_view>
#include <utility>

#include "joinery/base/plain_text.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

constexpr std::array<std::string_view, 3> kSpans{"length", "width", "thickness"};

bool isWordPart(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
         c == '.';
}

/// The text with each name that stands alone in it put in place of another.
std::string withName(const std::string& text, std::string_view name, const std::string& value) {
  std::string result;
  for (std::size_t i = 0; i < text.size();) {
    std::size_t end = i;
    while (end < text.size() && isWordPart(text[end])) ++end;
    if (end == i) {
      result += text[i++];
      continue;
    }
    const std::string word = text.substr(i, end - i);
    result += word == name ? value : word;
    i = end;
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
    node.text = withName(node.text, "copy", fmt::format("({})", copy));
    node.text = withName(node.text, "copies", fmt::format("({})", copies));
  }
  for (JsonMember& member : node.members) {
    // Words for people are left as they are.
    if (member.key != "note" && member.key != "label") numberCopies(member.value, copy, copies);
  }
}

Result<void> spreadCopies(JsonNode& part, const JsonNode& repeat, const std::string& place) {
  for (const JsonMember& member : repeat.members) {
    if (member.key == "count" || member.key == "spread") continue;
    return bad("unknown key " + inQuotes(member.key), place, "known here: count, spread");
  }
  const JsonNode* spread = repeat.find("spread");
  if (spread == nullptr) return {};
  const std::string here = place + ".spread";
  const JsonNode* along = spread->is(Type::object) ? spread->find("along") : nullptr;
  const JsonNode* from = along == nullptr ? nullptr : spread->find("from");
  const JsonNode* to = along == nullptr ? nullptr : spread->find("to");
  if (from == nullptr || to == nullptr || spread->members.size() != 3) {
    return bad("along, from and to are needed here", here,
               "write the axis and the two faces between which they stand");
  }
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

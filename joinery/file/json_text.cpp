#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>

#include "joinery/file/json_document.h"

namespace dryfit::joinery {
namespace {

constexpr std::size_t kColumns = 100;

/// Lists that stay one entry a line even when they would fit on one, so that adding an entry or
/// changing its value never moves its neighbours.
constexpr std::array<std::string_view, 10> kAlwaysOpen{"dimensions", "materials", "groups", "parts",
                                                       "joints",     "measured",  "tapers", "marks",
                                                       "edging",     "hardware"};

std::string escaped(const std::string& text) {
  return nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

std::string_view openingOf(const JsonNode& node) {
  return node.is(JsonNode::Type::object) ? "{" : "[";
}
std::string_view closingOf(const JsonNode& node) {
  return node.is(JsonNode::Type::object) ? "}" : "]";
}
bool holdsMembers(const JsonNode& node) {
  return node.is(JsonNode::Type::object) || node.is(JsonNode::Type::list);
}

void writeOnOneLine(const JsonNode& node, std::string& out) {
  switch (node.type) {
    case JsonNode::Type::null:
      out += "null";
      return;
    case JsonNode::Type::boolean:
      out += node.truth ? "true" : "false";
      return;
    case JsonNode::Type::number:
      out += node.text;
      return;
    case JsonNode::Type::text:
      out += escaped(node.text);
      return;
    default:
      break;
  }
  out += openingOf(node);
  for (std::size_t i = 0; i < node.members.size(); ++i) {
    if (i > 0) out += ", ";
    if (node.is(JsonNode::Type::object)) out += escaped(node.members[i].key) + ": ";
    writeOnOneLine(node.members[i].value, out);
  }
  out += closingOf(node);
}

/// Columns that UTF-8 text takes: its characters, not its bytes.
std::size_t columnsOf(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
  }));
}

/// Writes `node` behind `prefix` (its key, on a line of `level` indents).
void write(const JsonNode& node, const std::string& prefix, std::size_t level, bool open,
           std::string& out) {
  std::string line = prefix;
  writeOnOneLine(node, line);
  const bool fits = 2 * level + columnsOf(line) + 1 <= kColumns;
  if (!holdsMembers(node) || node.members.empty() || (fits && !open)) {
    out += line;
    return;
  }
  out += prefix;
  out += openingOf(node);
  for (std::size_t i = 0; i < node.members.size(); ++i) {
    const JsonMember& m = node.members[i];
    out += i > 0 ? ",\n" : "\n";
    out += std::string(2 * (level + 1), ' ');
    const bool list =
        level == 0 && std::find(kAlwaysOpen.begin(), kAlwaysOpen.end(), m.key) != kAlwaysOpen.end();
    write(m.value, node.is(JsonNode::Type::object) ? escaped(m.key) + ": " : "", level + 1, list,
          out);
  }
  out += '\n';
  out += std::string(2 * level, ' ');
  out += closingOf(node);
}

}  // namespace

std::string jsonText(const JsonNode& document) {
  std::string text;
  write(document, "", 0, true, text);
  return text + "\n";
}

}  // namespace dryfit::joinery

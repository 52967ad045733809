#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>

#include "joinery/file/json_document.h"

namespace dryfit::joinery {
namespace {

constexpr std::size_t kColumns = 100;

/// Lists that stay one entry a line even when they would fit on one, so that adding an entry or
/// changing its value never moves its neighbours.
constexpr std::array<std::string_view, 13> kAlwaysOpen{
    "dimensions", "choices",  "materials", "groups", "parts",  "joints",  "assemblies",
    "uses",       "measured", "tapers",    "marks",  "edging", "hardware"};

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

bool isAlwaysOpen(std::string_view key, std::size_t level) {
  return level == 1 && std::find(kAlwaysOpen.begin(), kAlwaysOpen.end(), key) != kAlwaysOpen.end();
}

/// Words, numbers and lists may stand beside each other on a line; objects have lines of their own.
bool mayShareItsLine(const JsonNode& node) {
  return !node.is(JsonNode::Type::object);
}

void write(const JsonNode& node, const std::string& prefix, std::string_view key, std::size_t level,
           std::string& out);

/// Writes the members of `node` on lines of `level` indents. Where they may share lines, what is
/// short goes beside what is short, in the author's order, up to the last column.
void writeMembers(const JsonNode& node, bool share, std::size_t level, std::string& out) {
  std::size_t column = 0;  // after the last member, or 0 where nothing may follow it on its line
  for (std::size_t i = 0; i < node.members.size(); ++i) {
    const JsonMember& m = node.members[i];
    const std::string prefix = node.is(JsonNode::Type::object) ? escaped(m.key) + ": " : "";
    std::string line = prefix;
    writeOnOneLine(m.value, line);
    const std::size_t columns = columnsOf(line) + 1;  // with the comma behind it
    const bool isShort = share && mayShareItsLine(m.value) && 2 * level + columns <= kColumns;
    if (i > 0) out += ',';
    if (isShort && column > 0 && column + 1 + columns <= kColumns) {
      out += ' ' + line;
      column += 1 + columns;
      continue;
    }
    out += '\n' + std::string(2 * level, ' ');
    write(m.value, prefix, m.key, level, out);
    column = isShort ? 2 * level + columns : 0;
  }
}

/// Writes `node` behind `prefix` (its key, on a line of `level` indents).
void write(const JsonNode& node, const std::string& prefix, std::string_view key, std::size_t level,
           std::string& out) {
  std::string line = prefix;
  writeOnOneLine(node, line);
  const bool fits = 2 * level + columnsOf(line) + 1 <= kColumns;
  const bool oneEntryALine = level == 0 || isAlwaysOpen(key, level);
  if (!holdsMembers(node) || node.members.empty() || (fits && !oneEntryALine)) {
    out += line;
    return;
  }
  out += prefix;
  out += openingOf(node);
  writeMembers(node, !oneEntryALine, level + 1, out);
  out += '\n' + std::string(2 * level, ' ');
  out += closingOf(node);
}

}  // namespace

std::string jsonText(const JsonNode& document) {
  std::string text;
  write(document, "", "", 0, text);
  return text + "\n";
}

}  // namespace dryfit::joinery

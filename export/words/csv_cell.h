#pragma once

#include <string>
#include <string_view>

namespace dryfit::exporting {

/// RFC 4180, section 2, rules 5 to 7: a cell with a quote, comma or line break goes in quotes, and
/// a quote inside is doubled.
[[nodiscard]] inline std::string csvCell(std::string_view text) {
  if (text.find_first_of("\",\r\n") == std::string_view::npos) return std::string(text);
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

}  // namespace dryfit::exporting

#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace dryfit::joinery {

/// `text` as one line that is safe to show: control characters and bytes that are not UTF-8 become
/// '?', and long text is cut to 60 characters.
[[nodiscard]] std::string oneLine(std::string_view text);

/// oneLine(text) in single quotes.
[[nodiscard]] std::string inQuotes(std::string_view text);

/// Number of bytes of the UTF-8 character at `at`; 1 where the bytes there are no such character.
[[nodiscard]] std::size_t characterBytes(std::string_view text, std::size_t at);

/// True for text that JSON takes for a number: "62", "-0.5", "1e3".
[[nodiscard]] bool isPlainNumber(std::string_view text);

/// What such a number comes to; also without digits before or behind its point. A decimal point is
/// a point whatever the user's locale writes. Infinite where it is too great for a double.
/// REQUIRES: `text` is such a number.
[[nodiscard]] double plainNumber(std::string_view text);

/// "a", "a and b", "a, b and c"; empty for none.
[[nodiscard]] std::string listed(const std::vector<std::string>& words);

/// Without blanks before and behind.
[[nodiscard]] std::string trimmed(std::string_view text);

/// The shortest text that reads back as the same double. REQUIRES: value is finite.
[[nodiscard]] std::string numberText(double value);

}  // namespace dryfit::joinery

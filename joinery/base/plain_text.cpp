#include "joinery/base/plain_text.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <limits>

namespace dryfit::joinery {
namespace {

constexpr std::size_t kLongestQuote = 60;

bool isDigit(char c) {
  return c >= '0' && c <= '9';
}

std::size_t digitsFrom(std::string_view text, std::size_t at) {
  std::size_t end = at;
  while (end < text.size() && isDigit(text[end])) ++end;
  return end - at;
}

}  // namespace

std::size_t characterBytes(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char first = byte(at);
  const std::size_t count = first >= 0xF0 && first < 0xF5   ? 4
                            : first >= 0xE0 && first < 0xF0 ? 3
                            : first >= 0xC2 && first < 0xE0 ? 2
                                                            : 1;
  if (at + count > text.size()) return 1;
  for (std::size_t i = 1; i < count; ++i) {
    if ((byte(at + i) & 0xC0) != 0x80) return 1;
  }
  return count;
}

std::string oneLine(std::string_view text) {
  std::string words;
  std::size_t characters = 0;
  for (std::size_t at = 0; at < text.size(); ++characters) {
    if (characters == kLongestQuote) return words + "...";
    const std::size_t bytes = characterBytes(text, at);
    const auto first = static_cast<unsigned char>(text[at]);
    if (bytes == 1 && (first < 0x20 || first >= 0x7F)) {
      words += '?';
    } else {
      words += text.substr(at, bytes);
    }
    at += bytes;
  }
  return words;
}

std::string inQuotes(std::string_view text) {
  return "'" + oneLine(text) + "'";
}

bool isPlainNumber(std::string_view text) {
  std::size_t at = !text.empty() && text[0] == '-' ? 1 : 0;
  const std::size_t whole = digitsFrom(text, at);
  if (whole == 0 || (whole > 1 && text[at] == '0')) return false;
  at += whole;
  if (at < text.size() && text[at] == '.') {
    const std::size_t fraction = digitsFrom(text, at + 1);
    if (fraction == 0) return false;
    at += 1 + fraction;
  }
  if (at < text.size() && (text[at] == 'e' || text[at] == 'E')) {
    ++at;
    if (at < text.size() && (text[at] == '+' || text[at] == '-')) ++at;
    const std::size_t exponent = digitsFrom(text, at);
    if (exponent == 0) return false;
    at += exponent;
  }
  return at == text.size();
}

double plainNumber(std::string_view text) {
  double value = 0;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
  if (read.ec != std::errc::result_out_of_range) return value;
  const bool tiny = text.find("e-") != text.npos || text.find("E-") != text.npos;
  return tiny ? 0 : std::numeric_limits<double>::infinity();
}

std::string listed(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? " and " : ", ";
    text += words[i];
  }
  return text;
}

std::string trimmed(std::string_view text) {
  constexpr std::string_view kBlanks = " \t\r\n";
  const std::size_t first = text.find_first_not_of(kBlanks);
  if (first == std::string_view::npos) return {};
  return std::string(text.substr(first, text.find_last_not_of(kBlanks) - first + 1));
}

std::string numberText(double value) {
  if (value == 0) return "0";
  if (std::fabs(value) < 1e15 && value == std::trunc(value)) return fmt::format("{:.0f}", value);
  return fmt::format("{}", value);
}

}  // namespace dryfit::joinery

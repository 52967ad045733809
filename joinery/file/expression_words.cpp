#include "joinery/file/expression_words.h"

#include "joinery/formula/functions.h"

namespace dryfit::joinery {
namespace {

bool isWordPart(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
         c == '.';
}

bool isCalled(const std::string& text, std::size_t end, const std::string& word) {
  const std::size_t next = text.find_first_not_of(" \t\n\r", end);
  return next != std::string::npos && text[next] == '(' && formulaFunctionNamed(word) != nullptr;
}

}  // namespace

std::string withWords(const std::string& text,
                      const std::function<std::string(std::string_view)>& change) {
  std::string result;
  for (std::size_t i = 0; i < text.size();) {
    std::size_t end = i;
    while (end < text.size() && isWordPart(text[end])) ++end;
    if (end == i) {
      result += text[i++];
      continue;
    }
    const std::string word = text.substr(i, end - i);
    const bool name = word.front() >= 'a' && word.front() <= 'z';
    result += name && !isCalled(text, end, word) ? change(word) : word;
    i = end;
  }
  return result;
}

}  // namespace dryfit::joinery

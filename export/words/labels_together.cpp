#include "export/words/labels_together.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <map>
#include <set>
#include <sstream>

namespace dryfit::exporting {
namespace {

constexpr std::size_t kTitleLetters = 44;
constexpr std::size_t kDigits = 6;

/// The numbers of a label, in their order.
using Numbers = std::vector<int>;

/// Labels that are the same but for their numbers, which stand at the marks.
struct Family {
  std::vector<std::string> words;  ///< an empty word is the mark of a number
  std::set<Numbers> members;
};

bool isNumber(const std::string& word) {
  return word.size() <= kDigits && !word.starts_with('0') &&
         std::ranges::all_of(word, [](unsigned char c) { return std::isdigit(c) != 0; });
}

/// "1–4" for numbers in a row, "1+3" for others.
std::string runsOf(const std::set<int>& numbers) {
  std::string text;
  for (auto first = numbers.begin(); first != numbers.end();) {
    auto last = first;
    while (std::next(last) != numbers.end() && *std::next(last) == *last + 1) ++last;
    if (!text.empty()) text += "+";
    text += *first == *last ? std::to_string(*first) : fmt::format("{}–{}", *first, *last);
    first = std::next(last);
  }
  return text;
}

/// Texts for the numbers from `at` on: first numbers that have the same rest share one text.
std::vector<std::vector<std::string>> texts(const std::set<Numbers>& members, std::size_t at) {
  if (members.empty() || at == members.begin()->size()) return {{}};
  std::map<int, std::set<Numbers>> restOf;
  for (const Numbers& numbers : members) {
    Numbers rest = numbers;
    std::fill(rest.begin(), rest.begin() + static_cast<std::ptrdiff_t>(at) + 1, 0);
    restOf[numbers[at]].insert(rest);
  }
  std::map<std::set<Numbers>, std::set<int>> alike;
  for (const auto& [number, rest] : restOf) alike[rest].insert(number);
  std::map<int, std::vector<std::vector<std::string>>> inOrder;  // by the least number
  for (const auto& [rest, numbers] : alike) {
    auto& own = inOrder[*numbers.begin()];
    for (std::vector<std::string> tail : texts(rest, at + 1)) {
      tail.insert(tail.begin(), runsOf(numbers));
      own.push_back(std::move(tail));
    }
  }
  std::vector<std::vector<std::string>> all;
  for (auto& [least, own] : inOrder) std::ranges::move(own, std::back_inserter(all));
  return all;
}

std::vector<Family> familiesOf(const std::vector<std::string>& labels) {
  std::vector<Family> families;
  for (const std::string& label : labels) {
    std::vector<std::string> words;
    Numbers numbers;
    std::istringstream in(label);
    for (std::string word; in >> word;) {
      if (isNumber(word)) {
        numbers.push_back(std::stoi(word));
        word.clear();
      }
      words.push_back(word);
    }
    auto family = std::ranges::find(families, words, &Family::words);
    if (family == families.end()) family = families.insert(families.end(), Family{words, {}});
    family->members.insert(numbers);
  }
  return families;
}

}  // namespace

std::string labelsTogether(const std::vector<std::string>& labels) {
  std::vector<std::string> all;
  for (const Family& family : familiesOf(labels)) {
    for (const std::vector<std::string>& numbers : texts(family.members, 0)) {
      std::vector<std::string> words = family.words;
      std::size_t next = 0;
      for (std::string& word : words) {
        if (word.empty()) word = numbers[next++];
      }
      all.push_back(fmt::format("{}", fmt::join(words, " ")));
    }
  }
  return fmt::format("{}", fmt::join(all, ", "));
}

std::string groupTitle(const joinery::Piece& piece, const joinery::PartGroup& group) {
  std::vector<std::string> labels;
  for (const joinery::PartId id : group.parts) labels.push_back(piece.label(id));
  std::string together = labelsTogether(labels);
  if (together.size() <= kTitleLetters || group.parts.size() < 2) return together;
  return fmt::format("{} and {} more", labels.front(), group.parts.size() - 1);
}

}  // namespace dryfit::exporting

#include "joinery/file/choices.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

#include "joinery/base/plain_text.h"
#include "joinery/formula/expression.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

/// The words of `options`: its keys, or the texts of a list.
std::vector<std::string> wordsOf(const JsonNode& options) {
  std::vector<std::string> words;
  for (const JsonMember& option : options.members) {
    words.push_back(options.is(Type::list) ? option.value.text : option.key);
  }
  return words;
}

tl::unexpected<Error> notOffered(const std::string& word, const std::vector<std::string>& words,
                                 const std::string& place) {
  const std::string nearest = nearestName(word, words);
  return fail(ErrorCode::badModel, inQuotes(word) + " is not among its options", place,
              nearest.empty() ? fmt::format("choose from {}", fmt::join(words, ", "))
                              : "did you mean " + inQuotes(nearest) + "?");
}

Result<void> resolveDimensions(JsonNode& list) {
  for (JsonMember& dimension : list.members) {
    JsonNode* options = dimension.value.find("options");
    JsonNode* value = dimension.value.find("value");
    if (options == nullptr || value == nullptr || !value->is(Type::text)) continue;
    const std::string place = "dimensions." + oneLine(dimension.key) + ".value";
    const std::vector<std::string> words = wordsOf(*options);
    const auto word = std::ranges::find(words, value->text);
    if (word == words.end()) return notOffered(value->text, words, place);
    const auto index = static_cast<std::size_t>(word - words.begin());
    const JsonNode& number = options->members[index].value;
    *value = options->is(Type::list) ? JsonNode::ofNumber(std::to_string(index + 1))
                                     : JsonNode::ofNumber(number.text);
  }
  return {};
}

Result<void> resolveSpecies(JsonNode& list, const JsonNode* choices) {
  for (JsonMember& material : list.members) {
    JsonNode* species = material.value.find("species");
    const JsonNode* name = species == nullptr ? nullptr : species->find("choice");
    if (name == nullptr) continue;
    const std::string place = "materials." + oneLine(material.key) + ".species.choice";
    const JsonNode* choice = choices == nullptr ? nullptr : choices->find(name->text);
    const JsonNode* value = choice == nullptr ? nullptr : choice->find("value");
    if (value == nullptr) {
      return fail(ErrorCode::unknownName, "there is no choice " + inQuotes(name->text), place,
                  "write it under 'choices'");
    }
    const JsonNode* options = choice->find("options");
    if (options != nullptr) {
      const std::vector<std::string> words = wordsOf(*options);
      if (std::ranges::find(words, value->text) == words.end()) {
        return notOffered(value->text, words, "choices." + oneLine(name->text) + ".value");
      }
    }
    *species = JsonNode::ofText(value->text);
  }
  return {};
}

}  // namespace

bool hasChoices(const JsonNode& document) {
  if (document.find("choices") != nullptr) return true;
  const JsonNode* list = document.find("dimensions");
  return list != nullptr && std::ranges::any_of(list->members, [](const JsonMember& dimension) {
           return dimension.value.find("options") != nullptr;
         });
}

Result<void> resolveChoices(JsonNode& document) {
  if (JsonNode* list = document.find("dimensions")) {
    if (auto done = resolveDimensions(*list); !done) return done;
  }
  if (JsonNode* list = document.find("materials")) {
    if (auto done = resolveSpecies(*list, document.find("choices")); !done) return done;
  }
  return {};
}

}  // namespace dryfit::joinery

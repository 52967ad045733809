#include "joinery/file/name_steps.h"

#include <algorithm>
#include <utility>

#include "joinery/file/use_copies.h"

namespace dryfit::joinery {
namespace {

/// "shelf" for "shelf_2", "shelf_copy" and "shelf_next"; empty for other names.
std::string_view withoutNumber(std::string_view step) {
  const std::size_t cut = step.rfind('_');
  if (cut == std::string_view::npos || cut + 1 == step.size()) return {};
  const std::string_view end = step.substr(cut + 1);
  const bool number = std::ranges::all_of(end, [](char c) { return c >= '0' && c <= '9'; });
  return number || end == "copy" || end == "next" ? step.substr(0, cut) : std::string_view();
}

}  // namespace

NameSteps::NameSteps(const JsonNode& document) {
  read(document, scopes_[""]);
  const JsonNode* list = document.find("assemblies");
  if (list == nullptr) return;
  for (const JsonMember& description : list->members) {
    if (description.value.find("file") == nullptr) {
      read(description.value, scopes_[description.key]);
    }
  }
}

void NameSteps::read(const JsonNode& node, Names& names) {
  const auto each = [&](const char* section, const auto& entry) {
    const JsonNode* list = node.find(section);
    if (list == nullptr) return;
    for (const JsonMember& member : list->members) {
      const bool isList = list->is(JsonNode::Type::list);
      names.emplace(isList ? member.value.text : member.key, entry(member.value));
    }
  };
  using Kind = NameStep::Kind;
  each("dimensions", [](const JsonNode&) { return Entry{Kind::dimension, false, {}}; });
  each("neighbours", [](const JsonNode&) { return Entry{Kind::neighbour, false, {}}; });
  each("parts", [](const JsonNode& part) {
    return Entry{Kind::part, part.find("repeat") != nullptr, {}};
  });
  each("uses", [](const JsonNode& use) {
    const JsonNode* of = use.find("of");
    return Entry{Kind::use, isRepeated(use), of == nullptr ? std::string() : of->text};
  });
}

NameSteps::Names::const_iterator NameSteps::find(const Names& names, std::string_view step) {
  if (const auto found = names.find(step); found != names.end()) return found;
  const auto found = names.find(withoutNumber(step));
  return found != names.end() && found->second.repeated ? found : names.end();
}

std::vector<NameStep> NameSteps::of(std::string_view word, const std::string& scope) const {
  std::vector<NameStep> steps;
  std::string in = scope;
  for (std::size_t at = 0; at < word.size();) {
    const std::size_t end = std::min(word.find('.', at), word.size());
    const auto names = scopes_.find(in);
    if (names == scopes_.end()) break;
    const auto found = find(names->second, word.substr(at, end - at));
    if (found == names->second.end()) {
      if (at > 0 || in.empty()) break;
      in.clear();  // what a description does not have is the piece's
      continue;
    }
    steps.push_back({found->second.kind, in, found->first, at, end - at});
    if (found->second.kind != NameStep::Kind::use || found->second.description.empty()) break;
    in = found->second.description;
    at = end + 1;
  }
  return steps;
}

}  // namespace dryfit::joinery

#include "joinery/file/scope.h"

#include <algorithm>
#include <utility>

#include "joinery/file/expression_words.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

/// "shelf" for "shelf_2", "shelf_copy" and "shelf_next"; empty for other names.
std::string_view withoutNumber(std::string_view name) {
  const std::size_t cut = name.rfind('_');
  if (cut == std::string_view::npos || cut + 1 == name.size()) return {};
  const std::string_view end = name.substr(cut + 1);
  const bool number = std::ranges::all_of(end, [](char c) { return c >= '0' && c <= '9'; });
  return number || end == "copy" || end == "next" ? name.substr(0, cut) : std::string_view();
}

void takeTexts(const JsonNode* from, std::map<std::string, std::string, std::less<>>& into) {
  if (from == nullptr) return;
  for (const JsonMember& member : from->members) into[member.key] = member.value.text;
}

}  // namespace

Scope::Scope(std::string prefix, const JsonNode& description, const JsonNode& use,
             const MirrorPlacing& placing)
    : prefix_(std::move(prefix)), placing_(placing) {
  for (const char* section : {"dimensions", "parts", "uses"}) {
    const JsonNode* list = description.find(section);
    if (list == nullptr) continue;
    for (const JsonMember& member : list->members) own_.insert(member.key);
  }
  takeTexts(use.find("neighbours"), neighbours_);
  takeTexts(use.find("materials"), materials_);
}

bool Scope::isOwn(std::string_view first) const {
  if (own_.contains(first)) return true;
  const std::string_view base = withoutNumber(first);
  return !base.empty() && own_.contains(base);
}

std::string Scope::partName(std::string_view name) const {
  const std::size_t dot = name.find('.');
  const std::string_view first = name.substr(0, dot);
  const std::string_view rest = dot == std::string_view::npos ? "" : name.substr(dot);
  if (const auto neighbour = neighbours_.find(first); neighbour != neighbours_.end()) {
    return neighbour->second + std::string(rest);
  }
  return isOwn(first) ? prefix_ + std::string(name) : std::string(name);
}

std::string Scope::materialName(const std::string& name) const {
  const auto own = materials_.find(name);
  return own == materials_.end() ? name : own->second;
}

std::string Scope::reflected(const std::string& name) const {
  const std::size_t dot = name.rfind('.');
  const auto face = dot == std::string::npos ? std::nullopt : faceNamed(name.substr(dot + 1));
  if (!face) return name;
  const AxisPlacing& axis = placing_.along(axisOf(*face));
  if (axis.plain()) return name;
  return axis.described(name.substr(0, dot + 1) + std::string(nameOf(placing_.image(*face))));
}

std::string Scope::word(std::string_view name) const {
  const std::size_t dot = name.find('.');
  const std::string_view first = name.substr(0, dot);
  if (first == "opening") return prefix_ + std::string(name);
  if (neighbours_.contains(first)) return reflected(partName(name));
  if (isOwn(first)) {
    return dot == std::string_view::npos ? prefix_ + std::string(name) : reflected(partName(name));
  }
  const auto material = materials_.find(first);
  if (material == materials_.end()) return std::string(name);
  return material->second + std::string(name.substr(first.size()));
}

std::string Scope::expression(const std::string& text) const {
  return withWords(text, [this](std::string_view name) { return word(name); });
}

void Scope::rewrite(JsonNode* node) const {
  if (node != nullptr && node->is(Type::text)) node->text = expression(node->text);
}

}  // namespace dryfit::joinery

#include "joinery/file/taken_names.h"

namespace dryfit::joinery {

std::set<std::string> takenNames(const JsonNode& node) {
  std::set<std::string> names;
  for (const char* section : {"dimensions", "choices", "materials", "groups", "parts", "joints",
                              "uses", "assemblies", "hardware", "tapers", "neighbours"}) {
    const JsonNode* list = node.find(section);
    if (list == nullptr) continue;
    for (const JsonMember& member : list->members) {
      names.insert(list->is(JsonNode::Type::list) ? member.value.text : member.key);
    }
  }
  return names;
}

}  // namespace dryfit::joinery

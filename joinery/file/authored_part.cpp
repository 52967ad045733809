#include "joinery/file/authored_part.h"

#include <algorithm>
#include <vector>

#include "joinery/base/plain_text.h"
#include "joinery/formula/expression.h"

namespace dryfit::joinery {

JsonNode authoredNode(const std::string& value) {
  const std::string text = trimmed(value);
  return isPlainNumber(text) ? JsonNode::ofNumber(text) : JsonNode::ofText(text);
}

bool hasPart(const ModelFile& file, const std::string& part) {
  return std::ranges::find(file.model().parts, part, &Part::name) != file.model().parts.end();
}

tl::unexpected<Error> noPart(const ModelFile& file, const std::string& part) {
  std::vector<std::string> names;
  for (const Part& own : file.model().parts) names.push_back(own.name);
  return fail(ErrorCode::unknownName, "there is no part " + inQuotes(part),
              "parts." + oneLine(part), nearestMend(part, names));
}

std::string Authored::place() const {
  return (scope.empty() ? "parts." : "assemblies." + scope + ".parts.") + name;
}

Result<Authored> authored(const ModelFile& file, const std::string& part) {
  const JsonNode* list = file.document().find("parts");
  const bool written = list != nullptr && list->find(part) != nullptr;
  if (!written && !hasPart(file, part)) return noPart(file, part);
  const std::string place = written ? "parts." + part : file.authoredPlace("parts", part);
  const JsonNode* entry = nodeAt(file.document(), place);
  if (entry == nullptr) {
    return fail(ErrorCode::unknownName, inQuotes(part) + " is described in a file of its own",
                place, "change it there");
  }
  Authored own{place.substr(place.rfind('.') + 1), entry->find("repeat") != nullptr, {}};
  constexpr std::string_view kDescribed = "assemblies.";
  if (place.starts_with(kDescribed)) {
    own.scope =
        place.substr(kDescribed.size(), place.find('.', kDescribed.size()) - kDescribed.size());
  }
  return own;
}

}  // namespace dryfit::joinery

#include "joinery/file/flat_document.h"

#include <fmt/format.h>

namespace dryfit::joinery {

std::string authoredPlace(const AuthoredPlaces& authored, const std::string& place) {
  // "parts.drawer_2.shelf_3.width.from": the longest entry that it starts with.
  for (std::size_t end = place.size(); end != std::string::npos && end > 0;
       end = place.rfind('.', end - 1)) {
    const auto found = authored.find(place.substr(0, end));
    if (found == authored.end()) continue;
    const std::string rest = place.substr(end);
    return fmt::format("{}{} ({})", found->second.place, rest, found->second.copy);
  }
  return place;
}

}  // namespace dryfit::joinery

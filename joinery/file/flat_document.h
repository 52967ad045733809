#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "joinery/file/json_document.h"
#include "joinery/file/mirrored.h"

namespace dryfit::joinery {

/// Where what stands at a place of a flat document was written by its author.
struct AuthoredPlace {
  std::string place;     ///< "assemblies.drawer.parts.front"
  std::string copy;      ///< for people: "in drawer_2", "copy 3"
  MirrorPlacing mirror;  ///< of a joint's parameters
  std::optional<Axis> thickness;
};

/// By the place in the flat document: "parts.drawer_2.front".
using AuthoredPlaces = std::map<std::string, AuthoredPlace>;

/// A place of a flat document, or below one, as its author knows it, with the copy:
/// "assemblies.drawer.parts.front.width (in drawer_2)". As it is where nothing is known of it.
[[nodiscard]] std::string authoredPlace(const AuthoredPlaces& authored, const std::string& place);

/// A document in which each sub-assembly stands written out, with the names of its copy in front:
/// "drawer_2.front". Parts and joints may still be repeated or depend on conditions.
struct FlatDocument {
  JsonNode document;
  AuthoredPlaces authored;
  std::map<std::string, std::vector<std::string>> copiesOf;  ///< of each repeated use
  std::set<std::string> leftOut;                             ///< uses, by a condition
};

}  // namespace dryfit::joinery

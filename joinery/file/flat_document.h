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
  bool ofFile = false;   ///< in a file of a sub-assembly, not in the model
  MirrorPlacing mirror;  ///< of a joint's parameters
  std::optional<Axis> thickness;
};

/// By the place in the flat document: "parts.drawer_2.front".
using AuthoredPlaces = std::map<std::string, AuthoredPlace>;

/// A document in which each sub-assembly stands written out, with the names of its copy in front:
/// "drawer_2.front". Parts and joints may still be repeated or depend on conditions.
struct FlatDocument {
  JsonNode document;
  AuthoredPlaces authored;
  std::map<std::string, std::vector<std::string>> copiesOf;  ///< of each repeated use
  std::set<std::string> leftOut;                             ///< uses, by a condition
};

}  // namespace dryfit::joinery

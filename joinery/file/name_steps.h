#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "joinery/file/json_document.h"

namespace dryfit::joinery {

/// One step of a dotted name: "drawer_2.front.top" is of the use `drawer` of the piece, then of the
/// part `front` of its description.
struct NameStep {
  enum class Kind { part, use, neighbour, dimension };
  Kind kind = Kind::part;
  std::string scope;       ///< the description that has the name; empty of the piece
  std::string name;        ///< as its author wrote it: "drawer"
  std::size_t at = 0;      ///< where it begins in the whole name
  std::size_t length = 0;  ///< with the number of a copy
};

/// What the names of a document stand for, in the piece and in each of its descriptions. Holds no
/// part of the document, which may change meanwhile.
class NameSteps {
 public:
  explicit NameSteps(const JsonNode& document);

  /// The steps of a name that is written in `scope`: a name of a description's own comes before one
  /// of the piece. Ends where a name is unknown, or lies in a file of its own.
  [[nodiscard]] std::vector<NameStep> of(std::string_view word, const std::string& scope) const;

 private:
  struct Entry {
    NameStep::Kind kind;
    bool repeated;
    std::string description;  ///< of a use
  };
  using Names = std::map<std::string, Entry, std::less<>>;

  void read(const JsonNode& node, Names& names);
  [[nodiscard]] static Names::const_iterator find(const Names& names, std::string_view step);

  std::map<std::string, Names> scopes_;
};

/// The description `name` of a document, the document itself for an empty name; null where it has
/// none, or in a file of its own.
template <class Node>
Node* scopeNode(Node& document, const std::string& name) {
  if (name.empty()) return &document;
  Node* list = document.find("assemblies");
  Node* node = list == nullptr ? nullptr : list->find(name);
  return node == nullptr || node->find("file") != nullptr ? nullptr : node;
}

}  // namespace dryfit::joinery

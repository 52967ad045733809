#pragma once

#include <algorithm>
#include <string>

#include "joinery/file/model_file.h"

namespace dryfit::joinery {

/// A part as its author wrote it.
struct Authored {
  std::string name;
  bool repeated = false;
  std::string scope;  ///< the description that it is a part of; empty of the piece

  [[nodiscard]] std::string place() const;  ///< "parts.shelf", "assemblies.drawer.parts.front"
};

[[nodiscard]] bool hasPart(const ModelFile& file, const std::string& part);
[[nodiscard]] tl::unexpected<Error> noPart(const ModelFile& file, const std::string& part);
/// The part that a part of the model was written as: "shelf" for "shelf_2", "front" of "drawer" for
/// "drawer_2.front". Error: unknownName (no such part, or one that a file of its own describes).
[[nodiscard]] Result<Authored> authored(const ModelFile& file, const std::string& part);

/// Text as a document holds it: what is a plain number is written as a number.
[[nodiscard]] JsonNode authoredNode(const std::string& text);

/// The node at a place of an author's document, whose names have no dots. Null where none is.
template <class Node>
Node* nodeAt(Node& document, const std::string& place) {
  Node* node = &document;
  for (std::size_t start = 0; start <= place.size() && node != nullptr;) {
    const std::size_t dot = std::min(place.find('.', start), place.size());
    node = node->find(place.substr(start, dot - start));
    start = dot + 1;
  }
  return node;
}

}  // namespace dryfit::joinery

#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "kernel/result.h"

namespace dryfit::joinery {

/// Named numbers and what each is worked out from. A plain value: it can be kept, compared by its
/// nodes and asked which numbers follow from a changed one.
class DependencyGraph {
 public:
  using Id = std::size_t;
  struct Node {
    std::string name;       ///< "left_stile.right"
    std::string place;      ///< where the model says it: "parts.left_stile.width"
    std::vector<Id> reads;  ///< what it is worked out from
    std::vector<Id> readBy;
  };

  /// Adds a number. REQUIRES: the name is new.
  Id add(std::string name, std::string place);
  /// `reader` is worked out from `source`. Equal edges count once.
  void connect(Id reader, Id source);

  [[nodiscard]] const std::vector<Node>& nodes() const { return nodes_; }
  [[nodiscard]] const Node& node(Id id) const { return nodes_[id]; }
  [[nodiscard]] std::optional<Id> find(const std::string& name) const;
  [[nodiscard]] std::vector<std::string> names() const;

  /// Every number behind all that it reads; among equals, in the order of adding. O(nodes + edges).
  /// Error: cycle, naming the whole loop: "a -> b -> a", with the place of its first number.
  [[nodiscard]] Result<std::vector<Id>> order() const;

  /// `changed` and all that follows from it, in the order of working out.
  /// REQUIRES: no cycle. O(nodes + edges).
  [[nodiscard]] std::vector<Id> affectedBy(const std::vector<Id>& changed) const;

 private:
  [[nodiscard]] Error cycleAmong(const std::vector<std::size_t>& waiting) const;

  std::vector<Node> nodes_;
  std::unordered_map<std::string, Id> ids_;
};

}  // namespace dryfit::joinery

#pragma once

#include <set>
#include <string>

#include "joinery/file/json_place.h"
#include "joinery/model/model.h"

namespace dryfit::joinery {

/// {"about": "z", "at": [0, 0, 0], "angle": 12}
[[nodiscard]] Turn readTurn(const JsonPlace& place);

/// Reads parts against the materials and groups that the model has so far.
class PartReader {
 public:
  explicit PartReader(const Model& model);
  [[nodiscard]] Part read(const std::string& name, const JsonPlace& place) const;

 private:
  void readReferences(const JsonPlace& place, Part& part) const;
  std::vector<std::string> materials_, groups_;
};

}  // namespace dryfit::joinery

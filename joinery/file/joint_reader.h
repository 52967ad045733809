#pragma once

#include <string>
#include <unordered_set>
#include <vector>

#include "joinery/file/json_place.h"
#include "joinery/joints/joint_kind.h"
#include "joinery/model/model.h"

namespace dryfit::joinery {

/// Reads joints against the table of kinds and the parts that the model has so far.
class JointReader {
 public:
  explicit JointReader(const Model& model);
  /// The mates come in the order of the kind's roles, the parameters in their author's order.
  [[nodiscard]] Joint read(const std::string& name, const JsonPlace& place) const;

 private:
  [[nodiscard]] const JointKind* readKind(const JsonPlace& place, Joint& joint) const;
  void readMates(const JsonPlace& place, const Role& role, Joint& joint) const;
  void readMate(const JsonPlace& place, RoleFilling& filling) const;

  std::vector<std::string> parts_;
  std::unordered_set<std::string> known_;
};

/// Names of the kind's parameters.
[[nodiscard]] std::vector<std::string> parameterNames(const JointKind& kind);

}  // namespace dryfit::joinery

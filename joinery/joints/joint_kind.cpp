#include "joinery/joints/joint_kind.h"

#include <algorithm>

namespace dryfit::joinery {

std::optional<double> JointContext::given(std::string_view name) const {
  const auto found = std::ranges::find(numbers, name, &JointValue::name);
  if (found == numbers.end()) return std::nullopt;
  return found->value;
}

std::optional<std::string_view> JointContext::word(std::string_view name) const {
  const auto found = std::ranges::find(words, name, &std::pair<std::string, std::string>::first);
  if (found == words.end()) return std::nullopt;
  return found->second;
}

void JointKind::check(const Piece&, const PlacedJoint&, std::vector<Finding>&) const {}

}  // namespace dryfit::joinery

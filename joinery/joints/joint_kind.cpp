#include "joinery/joints/joint_kind.h"

#include <algorithm>
#include <utility>

namespace dryfit::joinery {

JointContext::JointContext(const Piece& piece, JointId joint,
                           std::vector<std::vector<PartId>> mates, std::vector<JointValue> given,
                           std::vector<std::pair<std::string, std::string>> words,
                           const JointTable* table)
    : piece_(&piece),
      joint_(joint),
      mates_(std::move(mates)),
      given_(std::move(given)),
      words_(std::move(words)),
      table_(table) {}

std::optional<double> JointContext::given(std::string_view name) const {
  const auto found = std::ranges::find(given_, name, &JointValue::name);
  if (found == given_.end()) return std::nullopt;
  return found->value;
}

std::optional<std::string_view> JointContext::word(std::string_view name) const {
  const auto found = std::ranges::find(words_, name, &std::pair<std::string, std::string>::first);
  if (found == words_.end()) return std::nullopt;
  return found->second;
}

void JointKind::check(const Piece&, const PlacedJoint&, std::vector<Finding>&) const {}

}  // namespace dryfit::joinery

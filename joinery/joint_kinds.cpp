#include <algorithm>
#include <utility>

#include "joinery/joint_kind.h"
#include "joinery/joints/kinds.h"

namespace dryfit::joinery {
namespace {

std::vector<std::unique_ptr<const JointKind>> makeTable() {
  std::vector<std::unique_ptr<const JointKind>> table;
  table.push_back(makeBlindMortiseTenon());
  table.push_back(makeThroughMortiseTenon());
  table.push_back(makeHaunchedMortiseTenon());
  table.push_back(makeStubTenonGroove());
  table.push_back(makePanelGroove());
  table.push_back(makeThroughHousing());
  table.push_back(makeStoppedHousing());
  table.push_back(makeRebate());
  table.push_back(makeHalfLap());
  table.push_back(makeDowels());
  table.push_back(makeTongueGroove());
  table.push_back(makeEdgeJoint());
  table.push_back(makeButt());
  return table;
}

}  // namespace

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

std::span<const std::unique_ptr<const JointKind>> jointKinds() {
  static const std::vector<std::unique_ptr<const JointKind>> table = makeTable();
  return table;
}

const JointKind* jointKindNamed(std::string_view name) {
  for (const auto& kind : jointKinds()) {
    if (kind->name() == name) return kind.get();
  }
  return nullptr;
}

}  // namespace dryfit::joinery

#include "joinery/joints/joint_kinds.h"

#include <vector>

#include "joinery/joints/kinds/kinds.h"

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

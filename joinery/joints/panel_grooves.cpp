#include "joinery/joints/panel_grooves.h"

#include "joinery/joints/joint_table.h"

namespace dryfit::joinery {

std::vector<JointId> panelJointsAt(const JointContext& context, PartId part) {
  std::vector<JointId> joints;
  if (context.table() == nullptr) return joints;
  for (const JointId id : context.table()->jointsOf(part)) {
    if (context.table()->kind(id).name() == "panel-groove") joints.push_back(id);
  }
  return joints;
}

std::vector<Feature> panelGroovesIn(const JointContext& context, PartId part) {
  std::vector<Feature> grooves;
  for (const JointId id : panelJointsAt(context, part)) {
    const auto& cut = context.table()->cut(id);
    if (!cut) continue;
    for (const Feature& feature : cut->features) {
      if (feature.part == part && feature.purpose == Purpose::groove) grooves.push_back(feature);
    }
  }
  return grooves;
}

}  // namespace dryfit::joinery

#include "joinery/panel_grooves.h"

#include "joinery/joint_table.h"

namespace dryfit::joinery {

std::vector<Feature> panelGroovesIn(const JointContext& context, PartId part) {
  std::vector<Feature> grooves;
  if (context.table() == nullptr) return grooves;
  for (const JointId id : context.table()->jointsOf(part)) {
    if (context.table()->kind(id).name() != "panel-groove") continue;
    const auto& cut = context.table()->cut(id);
    if (!cut) continue;
    for (const Feature& feature : cut->features) {
      if (feature.part == part && feature.purpose == Purpose::groove) grooves.push_back(feature);
    }
  }
  return grooves;
}

}  // namespace dryfit::joinery

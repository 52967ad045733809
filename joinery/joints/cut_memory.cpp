#include "joinery/joints/cut_memory.h"

#include <algorithm>

#include "joinery/joints/panel_grooves.h"

namespace dryfit::joinery {

CutMemory recordsOf(const Piece& piece, const JointTable& table) {
  CutMemory memory;
  for (std::size_t i = 0; i < piece.model.joints.size(); ++i) {
    const JointId id(i);
    const JointContext& context = table.context(id);
    JointRecord record{&table.kind(id), id, context.roles(), {}, {}, context.given(),
                       context.words()};
    std::vector<JointId> panels;
    for (const auto& role : record.roles) {
      for (const PartId mate : role) {
        record.mates.push_back(piece.parts[mate.index()]);
        record.names.push_back(piece.part(mate).name);
        const std::vector<JointId> at = panelJointsAt(context, mate);
        panels.insert(panels.end(), at.begin(), at.end());
      }
    }
    memory.records.push_back(std::move(record));
    memory.panels.push_back(std::move(panels));
  }
  return memory;
}

std::vector<bool> unchanged(const CutMemory& now, const CutMemory& earlier) {
  std::vector<bool> own(now.records.size());
  for (std::size_t i = 0; i < own.size() && i < earlier.records.size(); ++i) {
    own[i] = now.records[i] == earlier.records[i];
  }
  std::vector<bool> all = own;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (!own[i]) continue;
    all[i] = now.panels[i] == earlier.panels[i] &&
             std::ranges::all_of(now.panels[i], [&](JointId panel) { return own[panel.index()]; });
  }
  return all;
}

}  // namespace dryfit::joinery

#include "joinery/checks/no_wood_left.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "joinery/base/plain_text.h"
#include "kernel/recipe.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

/// What one joint takes of a part, by the boxes round its cuts.
struct Taking {
  JointId joint;
  double volume = 0;
};

/// The greatest first; of equal ones in the order of the joints.
std::vector<Taking> takingsFrom(const PlacedPart& part) {
  const kernel::Box3 overall = part.overall();
  std::vector<Taking> takings;
  for (const Feature& feature : part.features) {
    if (feature.stage != Stage::cut && feature.stage != Stage::shape) continue;
    const double volume = kernel::boundsOf(feature.tool).common(overall).volume();
    if (volume <= 0) continue;
    const auto same = std::ranges::find(takings, feature.joint, &Taking::joint);
    if (same == takings.end()) {
      takings.push_back({feature.joint, volume});
    } else {
      same->volume += volume;
    }
  }
  std::ranges::stable_sort(takings, std::greater(), &Taking::volume);
  return takings;
}

/// False where the boxes round all cuts and wedges together are smaller than the part.
bool couldTakeAll(const PlacedPart& part) {
  double taken = 0;
  for (const Taking& taking : takingsFrom(part)) taken += taking.volume;
  for (const PlacedTaper& taper : part.tapers) taken += kernel::boundsOf(taper.tool).volume();
  return taken >= part.blank().volume() - kernel::kSliverVolume;
}

}  // namespace

std::vector<PartId> partsWithoutWood(const Piece& piece) {
  std::vector<PartId> without;
  for (const PlacedPart& part : piece.parts) {
    if (!couldTakeAll(part)) continue;
    const auto solid = kernel::build(part.recipe());
    if (!solid && solid.error().code == ErrorCode::emptyResult) without.push_back(part.id);
  }
  return without;
}

Error noWoodLeft(const Piece& piece, const PlacedPart& part) {
  const kernel::Box3 overall = part.overall();
  std::vector<std::string> names;
  double taken = 0;
  for (const Taking& taking : takingsFrom(part)) {
    if (taken >= overall.volume()) break;
    names.push_back("joint " + piece.joint(taking.joint).name);
    taken += taking.volume;
  }
  const std::string& where = piece.part(part.id).name;
  if (names.empty()) {
    return {ErrorCode::emptyResult, "no wood is left: its tapers take all of it", where,
            "taper it less"};
  }
  return {ErrorCode::emptyResult,
          fmt::format("no wood is left: {} take{} all of it", listed(names),
                      names.size() == 1 ? "s" : ""),
          where, fmt::format("make the cuts of {} smaller, or {} larger", names.front(), where)};
}

}  // namespace dryfit::joinery

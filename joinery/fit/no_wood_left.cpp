#include "joinery/fit/no_wood_left.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "joinery/base/plain_text.h"

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

}  // namespace

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

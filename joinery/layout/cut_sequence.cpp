#include "joinery/layout/cut_sequence.h"

#include <set>
#include <tuple>

namespace dryfit::joinery::cutting {
namespace {

FlatRect rectOf(const Area& area) {
  return {mmOf(area.x), mmOf(area.y), mmOf(area.length), mmOf(area.width)};
}

std::vector<Cut> cutsOf(const CutTree& tree) {
  std::vector<Cut> cuts;
  if (tree.nodes().empty()) return cuts;
  // By stage: how often cutting has turned by then; the trims come first of all.
  std::set<std::tuple<int, int, int>> next;  // stage, piece of the tree, its number in the sequence
  const auto wait = [&](int node, int number, int stageBefore, bool acrossBefore) {
    const CutNode& piece = tree.node(node);
    if (piece.whole()) return;
    next.emplace(stageBefore + (piece.across != acrossBefore ? 1 : 0), node, number);
  };
  wait(0, 0, 0, !tree.node(0).whole() && tree.node(0).across);
  while (!next.empty()) {
    const auto [stage, node, number] = *next.begin();
    next.erase(next.begin());
    const CutNode& piece = tree.node(node);
    const int made = 2 * static_cast<int>(cuts.size()) + 1;
    cuts.push_back({number, piece.across, mmOf(piece.at)});
    wait(piece.first, made, stage, piece.across);
    wait(piece.second, made + 1, stage, piece.across);
  }
  return cuts;
}

}  // namespace

StockLayout stockLayoutOf(const Job& job, const Pattern& pattern, int copy,
                          const std::vector<std::vector<const std::vector<int>*>>& blanks) {
  StockLayout layout;
  layout.item = job.bins[static_cast<std::size_t>(pattern.bin)].stock;
  layout.copy = copy;
  for (const PlacedMember& member : pattern.members) {
    const std::vector<int>& slots =
        *blanks[static_cast<std::size_t>(member.item)][static_cast<std::size_t>(member.copy)];
    layout.blanks.push_back(
        {slots[static_cast<std::size_t>(member.slot)], rectOf(member.at), member.turned});
  }
  layout.cuts = cutsOf(pattern.tree);
  for (const Area& offcut : offcutsOf(job, pattern)) layout.offcuts.push_back(rectOf(offcut));
  return layout;
}

}  // namespace dryfit::joinery::cutting

#include "joinery/layout/cut_tree.h"

namespace dryfit::joinery::cutting {
namespace {

constexpr Size kSliver = 20;  // a rest as thin as the slack of rounding is none

}  // namespace

int CutTree::split(int node, bool across, Size at) {
  const int first = static_cast<int>(nodes_.size());
  CutNode& cut = nodes_[static_cast<std::size_t>(node)];
  cut.first = first;
  cut.second = first + 1;
  cut.across = across;
  cut.at = at;
  CutNode near{.area = cut.area}, far{.area = cut.area};
  if (across) {
    near.area.length = std::max<Size>(0, at - cut.area.x);
    far.area.x = std::min(cut.area.farX(), at + kerf_);
    far.area.length = cut.area.farX() - far.area.x;
  } else {
    near.area.width = std::max<Size>(0, at - cut.area.y);
    far.area.y = std::min(cut.area.farY(), at + kerf_);
    far.area.width = cut.area.farY() - far.area.y;
  }
  const int made = across ? 1 : 2;
  near.made = far.made = made;
  near.turns = far.turns = cut.turns + (cut.made != 0 && cut.made != made ? 1 : 0);
  nodes_.push_back(near);
  nodes_.push_back(far);
  return first;
}

int CutTree::cutOutAlong(int node, const Area& part, bool across) {
  const Area whole = this->node(node).area;
  const Size start = across ? part.x : part.y;
  const Size end = across ? part.farX() : part.farY();
  if (start > (across ? whole.x : whole.y) + kSliver) node = split(node, across, start - kerf_) + 1;
  if (end + kSliver < (across ? whole.farX() : whole.farY())) node = split(node, across, end);
  return node;
}

int CutTree::cutOut(int node, const Area& part, bool acrossFirst) {
  return cutOutAlong(cutOutAlong(node, part, acrossFirst), part, !acrossFirst);
}

int CutTree::turns() const {
  int most = 0;
  for (const CutNode& node : nodes_) most = std::max(most, node.turns);
  return most;
}

}  // namespace dryfit::joinery::cutting

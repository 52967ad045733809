#include "joinery/base/box_tree.h"

#include <algorithm>
#include <numeric>

namespace dryfit::joinery {
namespace {

using kernel::Box3;

/// Below this many boxes asking each is quicker than going down further.
constexpr std::size_t kLeaf = 8;

int longestAxis(const Box3& box) {
  const kernel::Vec3 size = box.size();
  return size.x >= size.y && size.x >= size.z ? 0 : size.y >= size.z ? 1 : 2;
}

/// Box round the middles of boxes: where they lie, whatever their sizes.
Box3 roundMiddles(const std::vector<Box3>& boxes, std::span<const std::size_t> which) {
  Box3 box{boxes[which.front()].centre(), boxes[which.front()].centre()};
  for (const std::size_t i : which) box = box.united({boxes[i].centre(), boxes[i].centre()});
  return box;
}

}  // namespace

BoxTree::BoxTree(std::vector<Box3> boxes) : boxes_(std::move(boxes)), order_(boxes_.size()) {
  std::iota(order_.begin(), order_.end(), std::size_t{0});
  nodes_.reserve(boxes_.size() / 2 + 1);
  if (!boxes_.empty()) grow(0, boxes_.size());
}

/// Halves by the middle box along the axis on which the middles lie farthest apart, so that the
/// tree is balanced whatever the boxes.
void BoxTree::grow(std::size_t first, std::size_t last) {
  const std::size_t self = nodes_.size();
  Box3 bounds = boxes_[order_[first]];
  for (std::size_t i = first + 1; i < last; ++i) bounds = bounds.united(boxes_[order_[i]]);
  nodes_.push_back({bounds, first, last});
  if (last - first <= kLeaf) return;
  const int axis =
      longestAxis(roundMiddles(boxes_, std::span(order_).subspan(first, last - first)));
  const std::size_t middle = first + (last - first) / 2;
  const auto at = [&](std::size_t i) { return order_.begin() + static_cast<std::ptrdiff_t>(i); };
  std::nth_element(at(first), at(middle), at(last), [&](std::size_t i, std::size_t j) {
    return std::pair(boxes_[i].centre()[axis], i) < std::pair(boxes_[j].centre()[axis], j);
  });
  grow(first, middle);
  nodes_[self].farHalf = nodes_.size();
  grow(middle, last);
}

void BoxTree::collect(const Box3& box, std::size_t from, std::vector<std::size_t>& found) const {
  const Node& node = nodes_[from];
  if (node.bounds.common(box).empty()) return;
  if (node.farHalf != 0) {
    collect(box, from + 1, found);
    collect(box, node.farHalf, found);
    return;
  }
  for (std::size_t i = node.first; i < node.last; ++i) {
    if (!boxes_[order_[i]].common(box).empty()) found.push_back(order_[i]);
  }
}

std::vector<std::size_t> BoxTree::sharing(const Box3& box) const {
  std::vector<std::size_t> found;
  if (!nodes_.empty()) collect(box, 0, found);
  std::sort(found.begin(), found.end());
  return found;
}

std::vector<std::pair<std::size_t, std::size_t>> BoxTree::pairs(double margin) const {
  std::vector<std::pair<std::size_t, std::size_t>> pairs;
  std::vector<std::size_t> found;
  for (std::size_t i = 0; i < boxes_.size(); ++i) {
    found.clear();
    collect(boxes_[i].grown(margin), 0, found);
    for (const std::size_t j : found) {
      if (j != i) pairs.emplace_back(std::min(i, j), std::max(i, j));
    }
  }
  // Most pairs are met from both sides.
  std::sort(pairs.begin(), pairs.end());
  pairs.erase(std::unique(pairs.begin(), pairs.end()), pairs.end());
  return pairs;
}

}  // namespace dryfit::joinery

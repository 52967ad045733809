#pragma once

#include <algorithm>
#include <vector>

#include "joinery/layout/scaled_size.h"

namespace dryfit::joinery::cutting {

/// A rectangle on stock.
struct Area {
  Size x = 0, y = 0, length = 0, width = 0;
  [[nodiscard]] Size farX() const { return x + length; }
  [[nodiscard]] Size farY() const { return y + width; }
  [[nodiscard]] double area() const {
    return static_cast<double>(length) * static_cast<double>(width);
  }
  friend bool operator==(const Area&, const Area&) = default;
};

/// A piece that comes about in cutting: cut in two, or used, or left over.
struct CutNode {
  Area area;
  int first = -1, second = -1;  ///< the two pieces it is cut into; -1: it stays whole
  bool across = false;          ///< the cut is at one x
  Size at = 0;                  ///< where its kerf begins
  int use = -1;                 ///< what it becomes, when it stays whole; -1: left over
  int turns = 0;                ///< changes of direction among the cuts that made it
  int made = 0;  ///< direction of the last cut that made it: 0 none, 1 across, 2 along

  [[nodiscard]] bool whole() const { return first < 0; }
};

/// How one piece of stock is cut up, cut by cut, each right through the piece it cuts.
class CutTree {
 public:
  CutTree() = default;
  CutTree(Area whole, Size kerf) : kerf_(kerf), nodes_{CutNode{.area = whole}} {}

  /// Cuts a whole piece; returns the first of the two new ones, the second is the next number.
  /// Kerf beyond the edge of the piece costs nothing.
  int split(int node, bool across, Size at);
  /// Cuts `part`, which lies inside the piece, free: returns the number of the piece that is just
  /// that. Cross cuts before rips with `acrossFirst`, else after.
  int cutOut(int node, const Area& part, bool acrossFirst);
  /// Turns are counted from this piece on.
  void beginAt(int node) {
    nodes_[static_cast<std::size_t>(node)].turns = 0;
    nodes_[static_cast<std::size_t>(node)].made = 0;
  }
  void use(int node, int what) { nodes_[static_cast<std::size_t>(node)].use = what; }

  [[nodiscard]] const std::vector<CutNode>& nodes() const { return nodes_; }
  [[nodiscard]] const CutNode& node(int i) const { return nodes_[static_cast<std::size_t>(i)]; }
  [[nodiscard]] Size kerf() const { return kerf_; }
  [[nodiscard]] int cuts() const { return static_cast<int>(nodes_.size() / 2); }
  /// The most changes of direction on the way to any piece.
  [[nodiscard]] int turns() const;

 private:
  int cutOutAlong(int node, const Area& part, bool across);

  Size kerf_ = 0;
  std::vector<CutNode> nodes_;
};

}  // namespace dryfit::joinery::cutting

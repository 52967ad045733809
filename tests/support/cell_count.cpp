#include "tests/support/cell_count.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <vector>

namespace dryfit::test {
namespace {

using kernel::Box3;
using Cell = std::array<int, 3>;

/// One side of a cell that is boundary: the cell is wood, its neighbour along `axis` is not.
struct Side {
  Cell cell;
  int axis;
  int way;  ///< +1 or -1
  friend auto operator<=>(const Side&, const Side&) = default;
};

/// A unit of a grid line: from `node` one cell along `axis`.
struct Unit {
  Cell node;
  int axis;
  friend auto operator<=>(const Unit&, const Unit&) = default;
};

class Counter {
 public:
  explicit Counter(const kernel::Recipe& recipe) {
    const Box3 blank = boundsOf(recipe.blank);
    std::array<std::set<double>, 3> at;
    const auto note = [&](const Box3& box) {
      for (int axis = 0; axis < 3; ++axis) at[axis].insert({box.min[axis], box.max[axis]});
    };
    note(blank);
    for (const auto& step : recipe.steps) {
      for (const auto& tool : step.tools) note(boundsOf(tool));
    }
    for (int axis = 0; axis < 3; ++axis) at_[axis].assign(at[axis].begin(), at[axis].end());
    paint(blank, true);
    for (const auto& step : recipe.steps) {
      for (const auto& tool : step.tools) {
        paint(boundsOf(tool), step.kind == kernel::Step::Kind::add);
      }
      if (wood_.empty()) return;
    }
    for (const Cell& cell : wood_) {
      for (int axis = 0; axis < 3; ++axis) {
        for (const int way : {-1, 1}) {
          Cell next = cell;
          next[axis] += way;
          if (!wood_.contains(next)) sides_.push_back({cell, axis, way});
        }
      }
    }
    std::sort(sides_.begin(), sides_.end());
    for (int i = 0; i < int(sides_.size()); ++i) {
      for (const Unit& unit : unitsOf(sides_[i])) sidesAt_[unit].push_back(i);
    }
  }

  [[nodiscard]] std::optional<CellCount> count() const {
    if (wood_.empty() || !sound()) return {};
    CellCount result;
    for (const Cell& c : wood_) result.volume += width(0, c) * width(1, c) * width(2, c);
    for (const Side& s : sides_) {
      result.area += width((s.axis + 1) % 3, s.cell) * width((s.axis + 2) % 3, s.cell);
    }
    auto& [solids, shells, faces, edges, vertices] = result.topology;
    solids = lumps();
    std::vector<int> shellOf;
    shells = flood(shellOf, [](const Side&, const Side&) { return true; });
    std::vector<int> faceOf;
    faces = flood(faceOf, [](const Side& a, const Side& b) {
      return a.axis == b.axis && a.way == b.way && a.cell[a.axis] == b.cell[a.axis];
    });
    countEdges(faceOf, edges, vertices);
    return result;
  }

 private:
  [[nodiscard]] double width(int axis, const Cell& c) const {
    return at_[axis][c[axis] + 1] - at_[axis][c[axis]];
  }

  void paint(const Box3& box, bool wood) {
    Cell low;
    Cell high;
    for (int axis = 0; axis < 3; ++axis) {
      const auto index = [&](double x) {
        return int(std::find(at_[axis].begin(), at_[axis].end(), x) - at_[axis].begin());
      };
      low[axis] = index(box.min[axis]);
      high[axis] = index(box.max[axis]);
    }
    for (int x = low[0]; x < high[0]; ++x) {
      for (int y = low[1]; y < high[1]; ++y) {
        for (int z = low[2]; z < high[2]; ++z) {
          if (wood) wood_.insert({x, y, z});
          if (!wood) wood_.erase({x, y, z});
        }
      }
    }
  }

  [[nodiscard]] static std::array<Unit, 4> unitsOf(const Side& s) {
    const int u = (s.axis + 1) % 3;
    const int v = (s.axis + 2) % 3;
    Cell base = s.cell;
    if (s.way > 0) ++base[s.axis];
    Cell acrossU = base;
    ++acrossU[u];
    Cell acrossV = base;
    ++acrossV[v];
    return {{{base, u}, {base, v}, {acrossU, v}, {acrossV, u}}};
  }

  /// No line with four sides on it, and round each node the sides make one ring.
  [[nodiscard]] bool sound() const {
    std::map<Cell, std::set<int>> sidesAtNode;
    for (const auto& [unit, sides] : sidesAt_) {
      if (sides.size() != 2) return false;
      Cell end = unit.node;
      ++end[unit.axis];
      for (const Cell& node : {unit.node, end}) {
        sidesAtNode[node].insert(sides.begin(), sides.end());
      }
    }
    return std::all_of(sidesAtNode.begin(), sidesAtNode.end(),
                       [&](const auto& entry) { return isOneRing(entry.first, entry.second); });
  }

  [[nodiscard]] bool isOneRing(const Cell& node, const std::set<int>& sides) const {
    std::set<int> seen{*sides.begin()};
    std::vector<int> open{*sides.begin()};
    while (!open.empty()) {
      const int side = open.back();
      open.pop_back();
      for (const Unit& unit : unitsOf(sides_[side])) {
        Cell end = unit.node;
        ++end[unit.axis];
        if (unit.node != node && end != node) continue;
        for (const int next : sidesAt_.at(unit)) {
          if (seen.insert(next).second) open.push_back(next);
        }
      }
    }
    return seen.size() == sides.size();
  }

  [[nodiscard]] int lumps() const {
    std::set<Cell> left = wood_;
    int count = 0;
    while (!left.empty()) {
      ++count;
      std::vector<Cell> open{*left.begin()};
      left.erase(left.begin());
      while (!open.empty()) {
        const Cell cell = open.back();
        open.pop_back();
        for (int axis = 0; axis < 3; ++axis) {
          for (const int way : {-1, 1}) {
            Cell next = cell;
            next[axis] += way;
            if (left.erase(next) != 0) open.push_back(next);
          }
        }
      }
    }
    return count;
  }

  /// Groups the sides that hang together across units where `joined` holds.
  template <class Joined>
  [[nodiscard]] int flood(std::vector<int>& groupOf, Joined joined) const {
    groupOf.assign(sides_.size(), -1);
    int groups = 0;
    for (int first = 0; first < int(sides_.size()); ++first) {
      if (groupOf[first] >= 0) continue;
      groupOf[first] = groups;
      std::vector<int> open{first};
      while (!open.empty()) {
        const int side = open.back();
        open.pop_back();
        for (const Unit& unit : unitsOf(sides_[side])) {
          for (const int next : sidesAt_.at(unit)) {
            if (groupOf[next] >= 0 || !joined(sides_[side], sides_[next])) continue;
            groupOf[next] = groups;
            open.push_back(next);
          }
        }
      }
      ++groups;
    }
    return groups;
  }

  /// A unit is part of an edge where two faces meet in it. Nodes with two such units in line are
  /// inside an edge, all others with any are vertices.
  void countEdges(const std::vector<int>& faceOf, int& edges, int& vertices) const {
    std::map<Cell, std::vector<int>> axesAtNode;
    edges = 0;
    for (const auto& [unit, sides] : sidesAt_) {
      if (faceOf[sides[0]] == faceOf[sides[1]]) continue;
      ++edges;
      Cell end = unit.node;
      ++end[unit.axis];
      axesAtNode[unit.node].push_back(unit.axis);
      axesAtNode[end].push_back(unit.axis);
    }
    vertices = int(axesAtNode.size());
    for (const auto& [node, axes] : axesAtNode) {
      if (axes.size() != 2 || axes[0] != axes[1]) continue;
      --vertices;
      --edges;
    }
  }

  std::array<std::vector<double>, 3> at_;
  std::set<Cell> wood_;
  std::vector<Side> sides_;
  std::map<Unit, std::vector<int>> sidesAt_;
};

}  // namespace

std::optional<CellCount> countCells(const kernel::Recipe& recipe) {
  return Counter(recipe).count();
}

}  // namespace dryfit::test

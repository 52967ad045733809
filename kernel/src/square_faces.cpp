#include <algorithm>
#include <tuple>

#include "kernel/src/square_parts.h"

namespace dryfit::kernel {
namespace {

/// One edge end as met by someone who walks round a face with the face on the left.
struct Walk {
  std::int32_t edge;
  std::int32_t from, to;  ///< corners
  Heading heading;
};

/// A face's outer loop or hole while nobody knows which face it belongs to.
struct RawLoop {
  SquareWork::Loop uses;
  std::int32_t axis, plane;
  bool looksUp;
  std::int64_t turns;  ///< twice the area in cells: positive for outer loops, negative for holes
  [[nodiscard]] bool outer() const { return turns > 0; }
  [[nodiscard]] auto key() const { return std::make_tuple(axis, looksUp, plane); }
};

/// The plane all faces of one walk look along: `normal` points out of the wood.
struct Side {
  Heading normal;

  /// The half-line on the left of one who walks along `ahead` with his head along the normal.
  [[nodiscard]] Heading leftOf(Heading ahead) const {
    const bool cyclic = ahead.axis == (normal.axis + 1) % 3;
    return {3 - normal.axis - ahead.axis, cyclic == (normal.up == ahead.up)};
  }

  /// Whether the quarter of the plane between two half-lines that leave a corner is face.
  [[nodiscard]] bool isFace(Octant octant, Heading a, Heading b) const {
    const int quarter = (a.up ? 1 << a.axis : 0) | (b.up ? 1 << b.axis : 0);
    const int high = quarter | 1 << normal.axis;
    const bool woodBelow = octant >> (normal.up ? quarter : high) & 1;
    const bool woodAbove = octant >> (normal.up ? high : quarter) & 1;
    return woodBelow && !woodAbove;
  }

  /// Where the edge of the face goes on from a corner that was reached along `ahead`.
  [[nodiscard]] Heading turn(Octant octant, Heading ahead) const {
    const Heading left = leftOf(ahead);
    const Heading right{left.axis, !left.up};
    if (!isFace(octant, ahead, left)) return left;
    return isFace(octant, ahead, right) ? right : ahead;
  }
};

class Tracer {
 public:
  Tracer(const Network& network, SquareWork& work)
      : network_(network),
        work_(work),
        done_(2 * work.edges.size()),
        place_(work.corners.size(), -1) {
    work_.uses.reserve(2 * work_.edges.size());
    loops_.reserve(work_.edges.size());
  }

  void run() {
    for (std::int32_t edge = 0; edge < std::int32_t(work_.edges.size()); ++edge) {
      for (int side = 1; side <= 2; ++side) {
        if (!done_[2 * edge + side - 1]) walkRound(edge, side);
      }
    }
  }

  [[nodiscard]] std::vector<RawLoop>& loops() { return loops_; }

 private:
  /// The face of `edge` that is square to axis (edge axis + side), 1 or 2.
  [[nodiscard]] Side sideOf(std::int32_t edge, int side) const {
    const SquareWork::Edge& e = work_.edges[edge];
    const Octant octant = network_.octants[e.from];
    const Heading along{e.axis, true};
    const int axis = (e.axis + side) % 3;
    const int across = (e.axis + 3 - side) % 3;
    for (const bool up : {false, true}) {
      for (const bool reach : {false, true}) {
        if (Side{{axis, up}}.isFace(octant, along, {across, reach})) return {{axis, up}};
      }
    }
    return {{axis, true}};  // never: an edge has a face square to each of the other axes
  }

  /// Whether the face lies on the left of the edge as it runs upwards.
  [[nodiscard]] bool leftward(std::int32_t edge, const Side& side) const {
    const SquareWork::Edge& e = work_.edges[edge];
    const Heading along{e.axis, true};
    return side.isFace(network_.octants[e.from], along, side.leftOf(along));
  }

  [[nodiscard]] Walk walk(std::int32_t edge, bool up) const {
    const SquareWork::Edge& e = work_.edges[edge];
    return {edge, up ? e.from : e.to, up ? e.to : e.from, {e.axis, up}};
  }

  void walkRound(std::int32_t first, int sideNumber) {
    const Side side = sideOf(first, sideNumber);
    Walk at = walk(first, leftward(first, side));
    do {
      done_[2 * at.edge + (side.normal.axis - at.heading.axis + 3) % 3 - 1] = true;
      place_[at.from] = std::int32_t(path_.size());
      path_.push_back(at);
      // Back at a corner that this walk has passed: what lies between is a loop of its own. So
      // a face that meets itself at a corner has loops that touch there, and none that crosses.
      if (place_[at.to] >= 0) close(place_[at.to], side);
      const Heading next = side.turn(network_.octants[at.to], at.heading);
      at = walk(network_.leaving[at.to][next.slot()], next.up);
    } while (at.edge != first);
  }

  /// Makes a loop of the path from `begin` on, and forgets that stretch.
  void close(std::int32_t begin, const Side& side) {
    const int u = (side.normal.axis + 1) % 3;
    const int v = (side.normal.axis + 2) % 3;
    const auto& us = work_.coordinates[u];
    const auto& vs = work_.coordinates[v];
    const auto& origin = work_.corners[path_[begin].from].node;
    std::int64_t turns = 0;
    double area = 0;
    const auto firstUse = std::int32_t(work_.uses.size());
    for (auto i = std::size_t(begin); i < path_.size(); ++i) {
      const Walk& step = path_[i];
      place_[step.from] = -1;
      work_.uses.push_back({step.edge, !step.heading.up});
      if (step.heading.axis != u) continue;
      const auto& a = work_.corners[step.from].node;
      const auto& b = work_.corners[step.to].node;
      turns -= 2 * std::int64_t{b[u] - a[u]} * (a[v] - origin[v]);
      area -= (us[b[u]] - us[a[u]]) * (vs[a[v]] - vs[origin[v]]);
    }
    const bool up = side.normal.up;
    work_.area += up ? area : -area;
    loops_.push_back({{firstUse, std::int32_t(work_.uses.size())},
                      side.normal.axis,
                      origin[side.normal.axis],
                      up,
                      up ? turns : -turns});
    path_.resize(std::size_t(begin));
  }

  const Network& network_;
  SquareWork& work_;
  std::vector<char> done_;           ///< by edge and side: walked along
  std::vector<std::int32_t> place_;  ///< by corner: where on the path, or -1
  std::vector<Walk> path_;
  std::vector<RawLoop> loops_;
};

/// Finds which outer loop each hole of one plane and direction lies in.
class Nesting {
 public:
  explicit Nesting(const SquareWork& work) : work_(work) {}

  [[nodiscard]] const RawLoop* around(const RawLoop& hole, const RawLoop* first,
                                      const RawLoop* last) const {
    const auto point = faceCellBeside(hole);
    const RawLoop* best = nullptr;
    for (const RawLoop* loop = first; loop != last; ++loop) {
      if (loop->outer() && (!best || loop->turns < best->turns) && contains(*loop, point)) {
        best = loop;
      }
    }
    return best;
  }

 private:
  using Half = std::array<std::int64_t, 3>;  ///< a place in half cells

  /// The middle of a cell of the face, next to the hole's first edge.
  [[nodiscard]] Half faceCellBeside(const RawLoop& hole) const {
    const SquareWork::Use& use = work_.uses[hole.uses.first];
    const SquareWork::Edge& edge = work_.edges[use.edge];
    const Side side{{hole.axis, hole.looksUp}};
    const Heading left = side.leftOf({edge.axis, !use.backwards});
    const auto& node = work_.corners[edge.from].node;
    Half at{2 * std::int64_t{node[0]}, 2 * std::int64_t{node[1]}, 2 * std::int64_t{node[2]}};
    at[edge.axis] += 1;
    at[left.axis] += left.up ? 1 : -1;
    return at;
  }

  /// Counts the edges along u that a ray along +v crosses.
  [[nodiscard]] bool contains(const RawLoop& loop, const Half& point) const {
    const int u = (loop.axis + 1) % 3;
    const int v = (loop.axis + 2) % 3;
    bool inside = false;
    for (auto i = loop.uses.first; i < loop.uses.last; ++i) {
      const SquareWork::Edge& edge = work_.edges[work_.uses[i].edge];
      if (edge.axis != u) continue;
      const auto& a = work_.corners[edge.from].node;
      const auto& b = work_.corners[edge.to].node;
      if (2L * a[v] > point[v] && 2L * a[u] < point[u] && point[u] < 2L * b[u]) inside = !inside;
    }
    return inside;
  }

  const SquareWork& work_;
};

/// Makes faces of the loops `first` to `last` of one plane and direction, outer loops first.
void facesOfPlane(const RawLoop* first, const RawLoop* last, SquareWork& work) {
  const RawLoop* holes = std::find_if(first, last, [](const RawLoop& l) { return !l.outer(); });
  const Nesting nesting(work);
  std::vector<const RawLoop*> around;
  if (holes - first > 1) {
    for (const RawLoop* hole = holes; hole != last; ++hole) {
      around.push_back(nesting.around(*hole, first, holes));
    }
  }
  for (const RawLoop* outer = first; outer != holes; ++outer) {
    const auto firstLoop = std::int32_t(work.loops.size());
    work.loops.push_back(outer->uses);
    for (const RawLoop* hole = holes; hole != last; ++hole) {
      if (around.empty() || around[std::size_t(hole - holes)] == outer) {
        work.loops.push_back(hole->uses);
      }
    }
    work.faces.push_back(
        {outer->axis, outer->plane, outer->looksUp, firstLoop, std::int32_t(work.loops.size())});
  }
}

}  // namespace

void traceFaces(const Network& network, SquareWork& work) {
  Tracer tracer(network, work);
  tracer.run();
  std::vector<RawLoop>& loops = tracer.loops();
  std::sort(loops.begin(), loops.end(), [](const RawLoop& a, const RawLoop& b) {
    if (a.key() != b.key()) return a.key() < b.key();
    if (a.outer() != b.outer()) return a.outer();
    return a.uses.first < b.uses.first;
  });
  work.loops.reserve(loops.size());
  work.faces.reserve(loops.size());
  const RawLoop* const end = loops.data() + loops.size();
  for (const RawLoop* first = loops.data(); first != end;) {
    const RawLoop* last = first;
    while (last != end && last->key() == first->key()) ++last;
    facesOfPlane(first, last, work);
    first = last;
  }
}

}  // namespace dryfit::kernel

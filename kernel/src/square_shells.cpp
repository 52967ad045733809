#include <algorithm>
#include <numeric>

#include "kernel/src/square_parts.h"

namespace dryfit::kernel {
namespace {

/// Sets that grow together.
class Unions {
 public:
  explicit Unions(std::size_t count) : parent_(count) {
    std::iota(parent_.begin(), parent_.end(), 0);
  }
  [[nodiscard]] std::int32_t find(std::int32_t i) {
    while (parent_[i] != i) i = parent_[i] = parent_[parent_[i]];
    return i;
  }
  /// The lesser of the two roots stays.
  void join(std::int32_t a, std::int32_t b) {
    a = find(a);
    b = find(b);
    parent_[std::max(a, b)] = std::min(a, b);
  }

 private:
  std::vector<std::int32_t> parent_;
};

/// Calls `work(edge)` for the edges of all loops of a face.
template <class Work>
void forEdges(const SquareWork& work, const SquareWork::Face& face, Work&& onEdge) {
  for (auto loop = face.firstLoop; loop < face.lastLoop; ++loop) {
    for (auto use = work.loops[loop].first; use < work.loops[loop].last; ++use) {
      onEdge(work.uses[use]);
    }
  }
}

/// The shell of each face, numbered in the order of their first faces; returns how many.
std::int32_t shellsOf(const SquareWork& work, std::vector<std::int32_t>& shell) {
  const auto count = std::int32_t(work.faces.size());
  Unions unions(work.faces.size());
  std::vector<std::int32_t> firstFace(work.edges.size(), -1);
  for (std::int32_t f = 0; f < count; ++f) {
    forEdges(work, work.faces[f], [&](const SquareWork::Use& use) {
      std::int32_t& other = firstFace[use.edge];
      if (other < 0) {
        other = f;
      } else {
        unions.join(other, f);
      }
    });
  }
  shell.resize(work.faces.size());
  std::int32_t shells = 0;
  for (std::int32_t f = 0; f < count; ++f) {
    const std::int32_t root = unions.find(f);
    shell[f] = root == f ? shells++ : shell[root];
  }
  return shells;
}

/// A face's share of the volume inside its shell, in cells: the sign of the sum tells a shell round
/// wood from one round a void.
std::int64_t cellsUnder(const SquareWork& work, const SquareWork::Face& face) {
  const int u = (face.axis + 1) % 3;
  const int v = (face.axis + 2) % 3;
  std::int64_t area = 0;
  forEdges(work, face, [&](const SquareWork::Use& use) {
    const SquareWork::Edge& edge = work.edges[use.edge];
    if (edge.axis != u) return;
    const auto& a = work.corners[edge.from].node;
    const auto& b = work.corners[edge.to].node;
    area += (use.backwards ? 1 : -1) * std::int64_t{b[u] - a[u]} * a[v];
  });
  return area * face.plane;  // seen from outside, the area of a face that looks down is negative
}

/// Which lump each box belongs to, as any number that all its boxes share.
std::vector<std::int32_t> lumpsOfBoxes(const std::vector<Box3>& boxes) {
  const auto count = std::int32_t(boxes.size());
  Unions unions(boxes.size());
  for (std::int32_t i = 0; i < count; ++i) {
    for (std::int32_t j = i + 1; j < count && boxes[j].min.x <= boxes[i].max.x; ++j) {
      const Vec3 shared = boxes[i].common(boxes[j]).size();
      const int flat = (shared.x == 0) + (shared.y == 0) + (shared.z == 0);
      if (shared.x >= 0 && shared.y >= 0 && shared.z >= 0 && flat == 1) unions.join(i, j);
    }
  }
  std::vector<std::int32_t> lump(boxes.size());
  for (std::int32_t i = 0; i < count; ++i) lump[i] = unions.find(i);
  return lump;
}

/// The box that has the wood right under the first edge of a face.
std::size_t boxUnder(const SquareWork& work, const SquareWork::Face& face) {
  const SquareWork::Use& use = work.uses[work.loops[face.firstLoop].first];
  const SquareWork::Edge& edge = work.edges[use.edge];
  const auto& node = work.corners[edge.from].node;
  const int across = 3 - face.axis - edge.axis;
  // The face lies on the left of its use of the edge.
  const bool cyclic = edge.axis == (face.axis + 1) % 3;
  const bool left = cyclic == (face.looksUp != use.backwards);
  Point3 inside;
  const auto middle = [&](int axis, int cell) {
    const auto& c = work.coordinates[axis];
    inside.set(axis, (c[cell] + c[cell + 1]) / 2);
  };
  middle(edge.axis, node[edge.axis]);
  middle(across, left ? node[across] : node[across] - 1);
  middle(face.axis, face.looksUp ? face.plane - 1 : face.plane);
  for (std::size_t i = 0; i < work.boxes.size(); ++i) {
    const Box3& b = work.boxes[i];
    bool in = true;
    for (int axis = 0; axis < 3; ++axis) {
      in = in && b.min[axis] < inside[axis] && inside[axis] < b.max[axis];
    }
    if (in) return i;
  }
  return 0;  // never: there is wood under every face
}

/// The lump of each shell, numbered in the order of their outer shells.
std::vector<std::int32_t> lumpsOfShells(const SquareWork& work,
                                        const std::vector<std::int32_t>& shellOfFace,
                                        const std::vector<bool>& isVoid, std::int32_t& lumps) {
  std::vector<std::int32_t> lumpOfShell(isVoid.size(), 0);
  lumps = std::int32_t(std::count(isVoid.begin(), isVoid.end(), false));
  if (lumps == 1) return lumpOfShell;
  const std::vector<std::int32_t> boxLump = lumpsOfBoxes(work.boxes);
  std::vector<std::int32_t> woodOfShell(isVoid.size(), -1);
  for (std::size_t f = 0; f < work.faces.size(); ++f) {
    std::int32_t& wood = woodOfShell[shellOfFace[f]];
    if (wood < 0) wood = boxLump[boxUnder(work, work.faces[f])];
  }
  std::vector<std::int32_t> number(work.boxes.size(), -1);
  std::int32_t next = 0;
  for (std::size_t s = 0; s < isVoid.size(); ++s) {
    if (!isVoid[s]) number[woodOfShell[s]] = next++;
  }
  for (std::size_t s = 0; s < isVoid.size(); ++s) lumpOfShell[s] = number[woodOfShell[s]];
  return lumpOfShell;
}

}  // namespace

void gatherShells(SquareWork& work) {
  std::vector<std::int32_t> shellOfFace;
  const std::int32_t shells = shellsOf(work, shellOfFace);
  if (shells == 1) {
    work.shells.push_back({0, std::int32_t(work.faces.size())});
    work.lumps.push_back({0, 1});
    return;
  }
  std::vector<std::int64_t> cells(std::size_t(shells), 0);
  for (std::size_t f = 0; f < work.faces.size(); ++f) {
    cells[shellOfFace[f]] += cellsUnder(work, work.faces[f]);
  }
  std::vector<bool> isVoid(cells.size());
  for (std::size_t s = 0; s < cells.size(); ++s) isVoid[s] = cells[s] < 0;
  std::int32_t lumps = 0;
  const std::vector<std::int32_t> lumpOfShell = lumpsOfShells(work, shellOfFace, isVoid, lumps);

  // Shells in order of their lumps, the outer one first; then faces in order of their shells.
  std::vector<std::int32_t> order(cells.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(), [&](std::int32_t a, std::int32_t b) {
    return lumpOfShell[a] != lumpOfShell[b] ? lumpOfShell[a] < lumpOfShell[b]
                                            : isVoid[a] < isVoid[b];
  });
  std::vector<std::vector<SquareWork::Face>> facesOf(cells.size());
  for (std::size_t f = 0; f < work.faces.size(); ++f) {
    facesOf[shellOfFace[f]].push_back(work.faces[f]);
  }
  work.faces.clear();
  for (const std::int32_t s : order) {
    const auto first = std::int32_t(work.faces.size());
    work.faces.insert(work.faces.end(), facesOf[s].begin(), facesOf[s].end());
    const auto shell = std::int32_t(work.shells.size());
    work.shells.push_back({first, std::int32_t(work.faces.size())});
    if (!isVoid[s]) work.lumps.push_back({shell, shell});
    work.lumps.back().lastShell = shell + 1;
  }
}

}  // namespace dryfit::kernel

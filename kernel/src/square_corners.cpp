#include <bit>
#include <cstdio>
#include <string>

#include "kernel/src/square_parts.h"

namespace dryfit::kernel {
namespace {

constexpr bool woodAt(unsigned octant, int cell) {
  return (octant >> cell & 1U) != 0;
}

/// How many pieces the cells of `octant` that are `wood` fall into, joined across faces.
constexpr int piecesOf(unsigned octant, bool wood) {
  unsigned left = wood ? octant : ~octant & 0xFFU;
  int pieces = 0;
  while (left != 0) {
    ++pieces;
    unsigned piece = left & (~left + 1U);
    for (int grow = 0; grow < 3; ++grow) {  // no cell of eight is more than three steps away
      for (int axis = 0; axis < 3; ++axis) {
        const int step = 1 << axis;
        for (int cell = 0; cell < 8; ++cell) {
          if (woodAt(piece, cell)) piece |= left & (1U << (cell ^ step));
        }
      }
    }
    left &= ~piece;
  }
  return pieces;
}

/// The four cells of `octant` on one side of the node along `axis`, going round: neighbours in the
/// list share a face, so do the last and the first.
constexpr std::array<bool, 4> ringOf(unsigned octant, int axis, bool up) {
  const int b = 1 << ((axis + 1) % 3);
  const int c = 1 << ((axis + 2) % 3);
  const int base = up ? 1 << axis : 0;
  return {woodAt(octant, base), woodAt(octant, base | b), woodAt(octant, base | b | c),
          woodAt(octant, base | c)};
}

struct OctantFacts {
  bool sound = true;       ///< the surface round the node is one disc
  std::uint8_t edges = 0;  ///< by Heading::slot()
};

constexpr OctantFacts factsOf(unsigned octant) {
  OctantFacts facts;
  facts.sound = piecesOf(octant, true) <= 1 && piecesOf(octant, false) <= 1;
  for (int slot = 0; slot < 6; ++slot) {
    const auto ring = ringOf(octant, slot / 2, slot % 2 == 1);
    const bool odd = ring[0] ^ ring[1] ^ ring[2] ^ ring[3];
    if (odd) facts.edges = std::uint8_t(facts.edges | 1U << slot);
    // Wood, air, wood, air: two pieces meet in a line.
    if (!odd && ring[0] == ring[2] && ring[1] == ring[3] && ring[0] != ring[1]) {
      facts.sound = false;
    }
  }
  return facts;
}

constexpr std::array<OctantFacts, 256> allFacts() {
  std::array<OctantFacts, 256> facts;
  for (unsigned octant = 0; octant < 256; ++octant) facts[octant] = factsOf(octant);
  return facts;
}

constexpr std::array<OctantFacts, 256> kFacts = allFacts();

using Word = CellGrid::Word;

/// The four rows of cells round a row of nodes, and the same moved on by one cell.
struct Rows {
  std::array<const Word*, 4> rows;  // by y + 2z

  /// Bit x: the cell on the low side of node x.
  [[nodiscard]] Word low(int r, int w) const { return rows[r][w]; }
  /// Bit x: the cell on the high side of node x.
  [[nodiscard]] Word high(int r, int w) const { return rows[r][w] >> 1 | rows[r][w + 1] << 63; }

  /// Nodes whose eight cells change along each of the three axes. All others are inside an edge, a
  /// face, the wood or the air.
  [[nodiscard]] Word corners(int w) const {
    const Word a = low(0, w), b = low(1, w), c = low(2, w), d = low(3, w);
    const Word e = high(0, w), f = high(1, w), g = high(2, w), h = high(3, w);
    const Word alongX = (a ^ e) | (b ^ f) | (c ^ g) | (d ^ h);
    const Word alongY = (a ^ b) | (c ^ d) | (e ^ f) | (g ^ h);
    const Word alongZ = (a ^ c) | (b ^ d) | (e ^ g) | (f ^ h);
    return alongX & alongY & alongZ;
  }

  [[nodiscard]] Octant octant(int w, int bit) const {
    unsigned octant = 0;
    for (int r = 0; r < 4; ++r) {
      octant |= unsigned(low(r, w) >> bit & 1U) << (2 * r);
      octant |= unsigned(high(r, w) >> bit & 1U) << (2 * r + 1);
    }
    return Octant(octant);
  }
};

/// Joins each corner to the one before it on each of its three lines.
class Joiner {
 public:
  Joiner(const CellGrid::Index3& cells, SquareWork& work, Network& network)
      : work_(work),
        network_(network),
        across_(cells[0] + 1),
        lastAlongY_(std::size_t(across_)),
        lastAlongZ_(std::size_t(across_) * std::size_t(cells[1] + 1)) {}

  /// Corners come in ascending z, then y, then x, so that what an edge joins is the last corner
  /// seen on its line that had an edge going up.
  void add(int x, int y, int z, Octant octant) {
    const auto id = std::int32_t(work_.corners.size());
    work_.corners.push_back({{x, y, z}});
    network_.octants.push_back(octant);
    network_.leaving.push_back({-1, -1, -1, -1, -1, -1});
    const unsigned edges = kFacts[octant].edges;
    join(0, lastAlongX_, id, edges);
    join(1, lastAlongY_[x], id, edges);
    join(2, lastAlongZ_[y * across_ + x], id, edges);
  }

 private:
  void join(int axis, std::int32_t& last, std::int32_t id, unsigned edges) {
    const auto before = 2 * static_cast<std::size_t>(axis);
    if (edges >> before & 1U) {
      const auto edge = std::int32_t(work_.edges.size());
      work_.edges.push_back({last, id, axis});
      network_.leaving[last][before + 1] = edge;
      network_.leaving[id][before] = edge;
    }
    if (edges >> (before + 1) & 1U) last = id;
  }

  SquareWork& work_;
  Network& network_;
  int across_;
  std::int32_t lastAlongX_ = -1;
  std::vector<std::int32_t> lastAlongY_;
  std::vector<std::int32_t> lastAlongZ_;
};

std::string shown(Point3 p) {
  char text[96];
  std::snprintf(text, sizeof text, "(%.6g, %.6g, %.6g)", p.x, p.y, p.z);
  return text;
}

}  // namespace

Result<Network> cornersAndEdges(const CellGrid& grid, SquareWork& work) {
  Network network;
  const std::size_t guess = 128;
  work.corners.reserve(guess);
  work.edges.reserve(2 * guess);
  network.octants.reserve(guess);
  network.leaving.reserve(guess);
  Joiner joiner(grid.cells(), work, network);
  for (int z = 0; z <= grid.cells()[2]; ++z) {
    for (int y = 0; y <= grid.cells()[1]; ++y) {
      const Rows rows{
          {grid.row(y - 1, z - 1), grid.row(y, z - 1), grid.row(y - 1, z), grid.row(y, z)}};
      for (int w = 0; w < grid.words(); ++w) {
        for (Word left = rows.corners(w); left != 0; left &= left - 1) {
          const int bit = std::countr_zero(left);
          const int x = 64 * w + bit;
          const Octant octant = rows.octant(w, bit);
          if (!kFacts[octant].sound) {
            return fail(ErrorCode::invalidSolid,
                        "two pieces touch only along an edge or at a corner, at " +
                            shown(work.at({{x, y, z}})));
          }
          joiner.add(x, y, z, octant);
        }
      }
    }
  }
  return network;
}

}  // namespace dryfit::kernel

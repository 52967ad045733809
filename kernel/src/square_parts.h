#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "kernel/result.h"
#include "kernel/square_work.h"
#include "kernel/src/square_grid.h"

namespace dryfit::kernel {

/// The eight cells round a node: bit x + 2y + 4z, each of x, y, z being 1 on the high side.
using Octant = std::uint8_t;

/// One of the six half-lines that leave a node along the grid.
struct Heading {
  int axis;
  bool up;
  [[nodiscard]] int slot() const { return 2 * axis + (up ? 1 : 0); }
};

/// How corners and edges hang together, beside what SquareWork keeps.
struct Network {
  std::vector<Octant> octants;                       ///< round each corner
  std::vector<std::array<std::int32_t, 6>> leaving;  ///< edge by Heading::slot(), or -1
};

/// Fills `corners` and `edges`. Error: invalidSolid where pieces touch along an edge or at a corner
/// only.
[[nodiscard]] Result<Network> cornersAndEdges(const CellGrid& grid, SquareWork& work);

/// Fills `uses`, `loops`, `faces` (in order of axis, direction and plane) and `area`.
void traceFaces(const Network& network, SquareWork& work);

/// Fills `shells` and `lumps`, and puts the faces in their order.
void gatherShells(SquareWork& work);

/// Fills `boxes`, `volume`, `centroid` and `bounds`.
void measureBoxes(const CellGrid& grid, SquareWork& work);

}  // namespace dryfit::kernel

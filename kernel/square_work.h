#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "kernel/geometry.h"
#include "kernel/recipe.h"
#include "kernel/result.h"
#include "kernel/solid.h"
#include "kernel/tolerance.h"

namespace dryfit::kernel {

/// A part made of boxes square to its own axes, with its faces, edges and corners worked out by
/// counting cells and never by a Boolean operation. Pure data; all indices are into the vectors
/// here.
///
/// The coordinates of all boxes, sorted, cut space into cells, each all wood or all air. A *node*
/// is a crossing of three coordinates, given by its index on each axis.
///
/// Laws: every edge bounds exactly two faces and is used once in each direction; every loop is
/// closed and passes no corner twice; no two faces of one shell that lie in one plane and look the
/// same way share an edge; where only two edges meet, they are not in line.
struct SquareWork {
  struct Corner {
    std::array<std::int32_t, 3> node;
  };
  /// Runs along `axis` from the corner of lower coordinate to that of higher.
  struct Edge {
    std::int32_t from, to;
    std::int32_t axis;
  };
  /// An edge as one of its two faces uses it.
  struct Use {
    std::int32_t edge;
    bool backwards;  ///< from the edge's `to` to its `from`
  };
  /// Uses `first` up to, not including, `last`, end to end, with the face on the left as seen from
  /// outside the wood.
  struct Loop {
    std::int32_t first, last;
  };
  /// A piece of the plane `coordinates[axis][plane]`, looking along +axis or -axis out of the wood.
  struct Face {
    std::int32_t axis;
    std::int32_t plane;
    bool looksUp;                      ///< the outward normal is +axis
    std::int32_t firstLoop, lastLoop;  ///< the outer loop, then the holes
  };
  /// A closed surface: faces `firstFace` up to, not including, `lastFace`.
  struct Shell {
    std::int32_t firstFace, lastFace;
  };
  /// A connected piece of wood: its outer shell, then the shells of its voids.
  struct Lump {
    std::int32_t firstShell, lastShell;
  };

  /// A round hole along an axis, bored in by one face, and out by another where it goes through.
  /// It keeps clear of everything but these: its openings lie inside the faces and touch nothing.
  struct Bore {
    std::int32_t axis = 0;
    bool up = true;  ///< from its mouth towards +axis
    Point3 mouth;    ///< middle of the opening
    double radius = 0, depth = 0;
    std::int32_t mouthFace = -1;
    std::int32_t exitFace = -1;  ///< -1: it ends flat in the wood
  };

  std::array<std::vector<double>, 3> coordinates;  ///< mm, ascending
  std::vector<Corner> corners;
  std::vector<Edge> edges;
  std::vector<Use> uses;
  std::vector<Loop> loops;
  std::vector<Face> faces;
  std::vector<Shell> shells;
  std::vector<Lump> lumps;
  std::vector<Bore> bores;

  std::vector<Box3>
      boxes;          ///< the wood before boring, as boxes that share none; ascending in min.x
  double volume = 0;  ///< mm³
  double area = 0;    ///< mm²
  Point3 centroid;
  Box3 bounds;

  [[nodiscard]] Point3 at(const Corner& c) const {
    return {coordinates[0][c.node[0]], coordinates[1][c.node[1]], coordinates[2][c.node[2]]};
  }
  [[nodiscard]] Topology topology() const;
};

/// Works out a square recipe. Time grows with the number of cells over 64.
/// Errors mean "let the general way have it", which then either succeeds or names what is wrong:
///   badDimension  not square work, a size or place the workshop does not know, or too many cells;
///   emptyResult   a step leaves no wood;
///   invalidSolid  pieces that touch along an edge or at a corner only, where a closed surface
///                 would meet itself.
[[nodiscard]] Result<SquareWork> arrange(const Recipe& recipe);

/// The same for a recipe that also takes round holes along the part's axes. Besides the reasons of
/// `arrange`, badDimension where a hole is not clear of edges, faces and other holes.
[[nodiscard]] Result<SquareWork> arrangeBored(const Recipe& recipe);

/// A single box. REQUIRES: `makeBox` takes it (sound sizes, within the workshop).
[[nodiscard]] SquareWork arrangeBox(const Box3& box);

}  // namespace dryfit::kernel

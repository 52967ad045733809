#pragma once

#include <TopoDS_Shape.hxx>
#include <gp_Trsf.hxx>
#include <memory>
#include <optional>
#include <vector>

#include "joinery/fit/dry_fit.h"

namespace dryfit::viewer {

/// What the view draws for one part.
struct PartShape {
  TopoDS_Shape shape;  ///< the view's own copy, meshed, in the part's frame; one for equal parts
  std::vector<TopoDS_Shape> endFaces;      ///< faces of `shape` that show end grain or plies
  gp_Trsf place;                           ///< where it stands in the piece
  const void* body = nullptr;              ///< equal where `shape` is, with `grain`
  std::optional<joinery::PartAxis> grain;  ///< the figure of the wood lies along it

  [[nodiscard]] TopoDS_Shape placed() const;
};

/// Shapes of all parts, by PartId.
struct PartShapes {
  std::vector<PartShape> parts;
};

/// Copies and meshes every part of a dry fit for the screen, on all cores. Works on any thread. The
/// kernel's own solids are left as they are: a mesh hung on them would change how later work
/// measures them.
///
/// Equal parts share one mesh. Parts whose solid is one of `earlierFit`'s keep the mesh of
/// `earlier`, which was made from it, so that the view can tell what did not change. Both may be
/// null. Throws what the geometry library throws.
[[nodiscard]] std::shared_ptr<const PartShapes> makePartShapes(const joinery::DryFit& fit,
                                                               const joinery::DryFit* earlierFit,
                                                               const PartShapes* earlier);

}  // namespace dryfit::viewer

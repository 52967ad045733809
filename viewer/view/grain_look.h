#pragma once

#include <Graphic3d_TextureMap.hxx>
#include <TopoDS_Shape.hxx>
#include <gp_Pnt2d.hxx>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "joinery/piece/piece.h"
#include "viewer/look/wood_figure.h"

namespace dryfit::viewer {

/// Lays the figure of the wood over a meshed shape in its part's frame: over faces along the grain
/// by length and width in mm, over `endFaces` by width and height. The place in the figure is kept
/// as the mesh's own surface coordinates, which nothing else of the view reads; normals are worked
/// out before. `grain`: the size of the part along which the grain runs.
void layFigure(const TopoDS_Shape& shape, const std::vector<TopoDS_Shape>& endFaces,
               joinery::PartAxis grain);

/// Where in the figure a part was cut: the same for parts that are to match, another for others.
[[nodiscard]] gp_Pnt2d figureOrigin(const joinery::Part& part);

/// The pictures of figures, each made once.
class GrainPictures {
 public:
  struct Pair {
    Handle(Graphic3d_TextureMap) along, end;  ///< null where the wood has no figure
  };
  [[nodiscard]] const Pair& of(WoodStructure structure);

 private:
  std::map<WoodStructure, Pair> made_;
};

}  // namespace dryfit::viewer

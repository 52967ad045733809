#include "viewer/part_shapes.h"

#include <BRepAdaptor_Surface.hxx>
#include <BRepBuilderAPI_Copy.hxx>
#include <BRepMesh_IncrementalMesh.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <cmath>
#include <map>

#include "kernel/occt_bridge.h"

namespace dryfit::viewer {
namespace {

constexpr double kSag = 0.2;        // mm between mesh and true surface
constexpr double kSagAngle = 0.35;  // radians, about 20°: dowels look round

gp_Vec vec(const kernel::Vec3& v) {
  return {v.x, v.y, v.z};
}

TopoDS_Shape meshedCopy(const TopoDS_Shape& original) {
  const TopoDS_Shape bare = original.Located(TopLoc_Location());
  BRepBuilderAPI_Copy copy(bare, /*copyGeom=*/Standard_False, /*copyMesh=*/Standard_False);
  const TopoDS_Shape shape = copy.Shape();
  BRepMesh_IncrementalMesh mesh(shape, kSag, Standard_False, kSagAngle);
  return shape;
}

/// Plane faces that cross the grain: the ends of a board, all four edges of a sheet.
std::vector<TopoDS_Shape> endFaces(const TopoDS_Shape& shape, const joinery::Piece& piece,
                                   const joinery::PlacedPart& part) {
  std::vector<TopoDS_Shape> found;
  const int grainAxis = part.grainAxis;
  bool sheet = false;
  for (const joinery::Material& m : piece.model.materials) {
    if (m.name == piece.part(part.id).material) sheet = m.kind == joinery::MaterialKind::sheet;
  }
  for (TopExp_Explorer e(shape, TopAbs_FACE); e.More(); e.Next()) {
    const BRepAdaptor_Surface surface(TopoDS::Face(e.Current()));
    if (surface.GetType() != GeomAbs_Plane) continue;
    const gp_Vec normal(surface.Plane().Axis().Direction());
    const auto across = [&](int axis) {
      return std::abs(normal.Dot(vec(part.frame.axis(axis)))) > 0.8;
    };
    if (sheet ? !across(2) : grainAxis >= 0 && across(grainAxis)) found.push_back(e.Current());
  }
  return found;
}

/// Meshed copies by the shape that they are copies of.
using Copies = std::map<const void*, TopoDS_Shape>;

Copies copiesOf(const joinery::DryFit* fit, const PartShapes* shapes) {
  Copies copies;
  if (fit == nullptr || shapes == nullptr) return copies;
  for (std::size_t i = 0; i < shapes->parts.size(); ++i) {
    copies.emplace(kernel::shapeOf(fit->solids[i]).TShape().get(),
                   shapes->parts[i].shape.Located(TopLoc_Location()));
  }
  return copies;
}

}  // namespace

std::shared_ptr<const PartShapes> makePartShapes(const joinery::DryFit& fit,
                                                 const joinery::DryFit* earlierFit,
                                                 const PartShapes* earlier) {
  auto shapes = std::make_shared<PartShapes>();
  Copies copies = copiesOf(earlierFit, earlier);
  for (std::size_t i = 0; i < fit.solids.size(); ++i) {
    const kernel::Solid placed = fit.placed(joinery::PartId(i));
    const TopoDS_Shape& original = kernel::shapeOf(placed);
    TopoDS_Shape& copy = copies[original.TShape().get()];
    if (copy.IsNull()) copy = meshedCopy(original);
    PartShape part;
    part.shape = copy.Located(original.Location());
    part.endFaces = endFaces(part.shape, fit.piece, fit.piece.parts[i]);
    shapes->parts.push_back(std::move(part));
  }
  return shapes;
}

}  // namespace dryfit::viewer

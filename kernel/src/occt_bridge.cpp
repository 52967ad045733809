#include "kernel/occt_bridge.h"

#include <BRepBuilderAPI_MakeEdge.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakePolygon.hxx>
#include <BRepBuilderAPI_MakeVertex.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Face.hxx>
#include <TopoDS_Vertex.hxx>

#include "kernel/src/guarded.h"
#include "kernel/src/solid_impl.h"

namespace dryfit::kernel {

const TopoDS_Shape& shapeOf(const Solid& solid) {
  return solid.impl().shape();
}

Result<Solid> solidFrom(const TopoDS_Shape& shape) {
  return guarded("taking over a shape", [&]() -> Result<Solid> {
    auto solid = finish(shape);
    if (!solid && solid.error().code == ErrorCode::emptyResult) {
      return fail(ErrorCode::invalidSolid, "the shape has no solid in it");
    }
    return solid;
  });
}

TopoDS_Shape outlineShape(std::span<const Point3> corners) {
  const auto at = [](Point3 p) { return gp_Pnt(p.x, p.y, p.z); };
  if (corners.size() == 1) return BRepBuilderAPI_MakeVertex(at(corners[0])).Vertex();
  if (corners.size() == 2) {
    return BRepBuilderAPI_MakeEdge(at(corners[0]), at(corners[1])).Edge();
  }
  BRepBuilderAPI_MakePolygon round;
  for (const Point3& corner : corners) round.Add(at(corner));
  round.Close();
  return BRepBuilderAPI_MakeFace(round.Wire(), Standard_True).Face();
}

}  // namespace dryfit::kernel

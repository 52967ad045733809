#include "kernel/mesh.h"

#include <BRepBuilderAPI_Copy.hxx>
#include <BRepMesh_IncrementalMesh.hxx>
#include <BRep_Tool.hxx>
#include <Poly_Triangulation.hxx>
#include <TopExp.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <TopoDS.hxx>
#include <cmath>
#include <numbers>

#include "kernel/occt_bridge.h"
#include "kernel/src/convert.h"
#include "kernel/src/guarded.h"
#include "kernel/src/solid_impl.h"
#include "kernel/src/square_brep.h"

namespace dryfit::kernel {
namespace {

/// Adds the triangles of one face; false when the library made none for it.
bool addFace(const TopoDS_Face& face, int index, Mesh& mesh) {
  TopLoc_Location place;
  const Handle(Poly_Triangulation) net = BRep_Tool::Triangulation(face, place);
  if (net.IsNull()) return false;
  const int first = static_cast<int>(mesh.points.size());
  for (int i = 1; i <= net->NbNodes(); ++i) {
    mesh.points.push_back(fromLibrary(net->Node(i).Transformed(place.Transformation())));
  }
  const bool reversed = face.Orientation() == TopAbs_REVERSED;
  for (int i = 1; i <= net->NbTriangles(); ++i) {
    int a = 0;
    int b = 0;
    int c = 0;
    net->Triangle(i).Get(a, b, c);
    if (reversed) std::swap(b, c);
    mesh.triangles.push_back({first + a - 1, first + b - 1, first + c - 1});
    mesh.faceOfTriangle.push_back(index);
  }
  return true;
}

}  // namespace

TopoDS_Shape meshedShapeOf(const Solid& solid, double sag, double sagAngle) {
  const Solid::Impl& impl = solid.impl();
  if (impl.square && impl.square->work.bores.empty()) {
    if (auto shape = meshedSquareShape(impl.square->work); !shape.IsNull()) return shape;
  }
  // The mesher stores its triangles in the shape, and solids are shared between threads: it works
  // on a copy of the topology over the same surfaces.
  BRepBuilderAPI_Copy copy(impl.shape().Located(TopLoc_Location()), /*copyGeom=*/false,
                           /*copyMesh=*/false);
  const BRepMesh_IncrementalMesh mesher(copy.Shape(), sag, /*isRelative=*/false, sagAngle);
  return copy.Shape();
}

Result<Mesh> triangulate(const Solid& solid, Length sag) {
  if (!(sag.mm() > 0) || !std::isfinite(sag.mm())) {
    return fail(ErrorCode::badDimension, "the mesh's sag is not greater than zero");
  }
  return guarded("meshing", [&]() -> Result<Mesh> {
    const double turn = std::numbers::pi / 12;  // no facet of a round turns by more than 15°
    const TopoDS_Shape meshed = meshedShapeOf(solid, sag.mm(), turn);
    TopTools_IndexedMapOfShape faces;
    TopExp::MapShapes(meshed.Moved(solid.impl().place()), TopAbs_FACE, faces);
    Mesh mesh;
    for (int i = 1; i <= faces.Extent(); ++i) {
      if (!addFace(TopoDS::Face(faces(i)), i - 1, mesh)) {
        return fail(ErrorCode::libraryFailure,
                    "the geometry library left a face without triangles");
      }
    }
    return mesh;
  });
}

}  // namespace dryfit::kernel

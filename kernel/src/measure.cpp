#include <BRepAdaptor_Curve.hxx>
#include <BRepAdaptor_Surface.hxx>
#include <BRepBndLib.hxx>
#include <BRepExtrema_DistShapeShape.hxx>
#include <BRepGProp.hxx>
#include <BRep_Tool.hxx>
#include <Bnd_Box.hxx>
#include <GProp_GProps.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <algorithm>
#include <limits>
#include <vector>

#include "kernel/solid.h"
#include "kernel/src/boolean.h"
#include "kernel/src/convert.h"
#include "kernel/src/guarded.h"
#include "kernel/src/solid_impl.h"
#include "kernel/src/square_measure.h"
#include "kernel/tolerance.h"

namespace dryfit::kernel {
namespace {

/// Whether all faces are plane and all edges straight, so that the corners bound the shape.
bool isPolyhedral(const TopoDS_Shape& shape) {
  for (TopExp_Explorer face(shape, TopAbs_FACE); face.More(); face.Next()) {
    if (BRepAdaptor_Surface(TopoDS::Face(face.Current()), false).GetType() != GeomAbs_Plane) {
      return false;
    }
  }
  for (TopExp_Explorer edge(shape, TopAbs_EDGE); edge.More(); edge.Next()) {
    if (BRepAdaptor_Curve(TopoDS::Edge(edge.Current())).GetType() != GeomAbs_Line) return false;
  }
  return true;
}

Box3 boxOfCorners(const TopoDS_Shape& shape) {
  constexpr double far = std::numeric_limits<double>::infinity();
  Box3 box{{far, far, far}, {-far, -far, -far}};
  for (TopExp_Explorer corner(shape, TopAbs_VERTEX); corner.More(); corner.Next()) {
    const Point3 p = fromLibrary(BRep_Tool::Pnt(TopoDS::Vertex(corner.Current())));
    box = box.united({p, p});
  }
  return box;
}

/// A point near the shape, to measure from: far from the origin the sums would lose digits.
gp_Pnt nearPoint(const TopoDS_Shape& shape) {
  const TopExp_Explorer corner(shape, TopAbs_VERTEX);
  return corner.More() ? BRep_Tool::Pnt(TopoDS::Vertex(corner.Current())) : gp_Pnt();
}

/// The solids of a shared shape less those that are films: twice the volume over the area is the
/// mean thickness of anything thin.
std::vector<TopoDS_Shape> withoutFilms(const TopoDS_Shape& shape) {
  std::vector<TopoDS_Shape> pieces;
  for (TopExp_Explorer solid(shape, TopAbs_SOLID); solid.More(); solid.Next()) {
    const TopoDS_Shape& piece = solid.Current();
    if (2 * massOf(piece).volume >= kContact * areaOf(piece)) pieces.push_back(piece);
  }
  return pieces;
}

Overlap summed(const std::vector<TopoDS_Shape>& pieces) {
  Overlap sum;
  Vec3 moment;
  for (const TopoDS_Shape& piece : pieces) {
    const Mass mass = massOf(piece);
    const Box3 box = boundsOf(piece);
    sum.bounds = sum.volume > 0 ? sum.bounds.united(box) : box;
    if (sum.volume == 0) sum.centre = mass.centroid;
    moment = moment + (mass.centroid - sum.centre) * mass.volume;
    sum.volume += mass.volume;
  }
  if (sum.volume < kSliverVolume) return {};
  sum.centre = sum.centre + moment * (1 / sum.volume);
  return sum;
}

}  // namespace

Mass massOf(const TopoDS_Shape& shape) {
  GProp_GProps sums(nearPoint(shape));
  BRepGProp::VolumeProperties(shape, sums);
  return {sums.Mass(), fromLibrary(sums.CentreOfMass())};
}

double areaOf(const TopoDS_Shape& shape) {
  GProp_GProps sums(nearPoint(shape));
  BRepGProp::SurfaceProperties(shape, sums);
  return sums.Mass();
}

Box3 boundsOf(const TopoDS_Shape& shape) {
  if (isPolyhedral(shape)) return boxOfCorners(shape);
  Bnd_Box box;
  BRepBndLib::AddOptimal(shape, box, /*useTriangulation=*/false, /*useShapeTolerance=*/false);
  box.SetGap(0);
  return {fromLibrary(box.CornerMin()), fromLibrary(box.CornerMax())};
}

Result<Overlap> overlap(const Solid& a, const Solid& b) {
  if (const auto exact = squareOverlap(a.impl(), b.impl())) return *exact;
  return guarded("measuring shared wood", [&]() -> Result<Overlap> {
    // The shared wood lies in the shared box, so a box too small to matter settles it.
    if (a.bounds().common(b.bounds()).volume() < kSliverVolume) return Overlap{};
    const auto raw = commonShape(a, b);
    if (!raw) return tl::unexpected(raw.error());
    return summed(withoutFilms(*raw));
  });
}

Result<double> distance(const Solid& a, const Solid& b) {
  if (const auto exact = squareDistance(a.impl(), b.impl())) return *exact;
  return guarded("measuring a distance", [&]() -> Result<double> {
    const BRepExtrema_DistShapeShape measured(a.impl().shape(), b.impl().shape());
    if (!measured.IsDone() || measured.NbSolution() == 0) {
      return fail(ErrorCode::libraryFailure, "the geometry library found no distance");
    }
    return measured.Value();
  });
}

}  // namespace dryfit::kernel

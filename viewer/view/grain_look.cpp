#include "viewer/view/grain_look.h"

#include <BRepTools.hxx>
#include <BRep_Tool.hxx>
#include <Graphic3d_Texture2Dmanual.hxx>
#include <Graphic3d_TextureParams.hxx>
#include <Image_PixMap.hxx>
#include <Poly_Triangulation.hxx>
#include <StdPrs_ToolTriangulatedShape.hxx>
#include <TopExp_Explorer.hxx>
#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Face.hxx>
#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <functional>

namespace dryfit::viewer {
namespace {

/// Mean direction of a face's triangles, sizes only.
std::array<double, 3> facing(const Handle(Poly_Triangulation) & mesh) {
  gp_XYZ sum;
  for (int i = 1; i <= mesh->NbTriangles(); ++i) {
    int a = 0, b = 0, c = 0;
    mesh->Triangle(i).Get(a, b, c);
    const gp_XYZ p = mesh->Node(a).XYZ();
    sum += (mesh->Node(b).XYZ() - p).Crossed(mesh->Node(c).XYZ() - p);
  }
  return {std::abs(sum.X()), std::abs(sum.Y()), std::abs(sum.Z())};
}

/// The two of a part's axes that lie best in a face: along the grain and across it, or of an end
/// face across and through the thickness.
std::pair<int, int> axesOf(const Handle(Poly_Triangulation) & mesh, bool end, int grain) {
  const std::array<double, 3> out = facing(mesh);
  const int across = grain == 0 ? 1 : 0;
  if (!end) return {grain, out[static_cast<std::size_t>(across)] > out[2] ? 2 : across};
  // The edges of a sheet may face either way.
  return {out[0] > out[1] ? 1 : 0, 2};
}

void layOver(const TopoDS_Face& face, bool end, int grain) {
  TopLoc_Location place;
  const Handle(Poly_Triangulation) mesh = BRep_Tool::Triangulation(face, place);
  if (mesh.IsNull()) return;
  if (!mesh->HasUVNodes()) mesh->AddUVNodes();
  StdPrs_ToolTriangulatedShape::ComputeNormals(face, mesh);
  const auto [u, v] = axesOf(mesh, end, grain);
  const double wide = end ? kFigureEndWidth : kFigureAlong;
  const double high = end ? kFigureEndHeight : kFigureAcross;
  // The library takes a node's coordinates as shares of the face's own bounds.
  double uMin = 0, uMax = 0, vMin = 0, vMax = 0;
  BRepTools::UVBounds(face, uMin, uMax, vMin, vMax);
  const bool shares = uMax != uMin && vMax != vMin;
  for (int i = 1; i <= mesh->NbNodes(); ++i) {
    const gp_Pnt at = mesh->Node(i).Transformed(place.Transformation());
    const double s = at.Coord(u + 1) / wide, t = at.Coord(v + 1) / high;
    mesh->SetUVNode(
        i, shares ? gp_Pnt2d(uMin + s * (uMax - uMin), vMin + t * (vMax - vMin)) : gp_Pnt2d(s, t));
  }
}

Handle(Graphic3d_TextureMap) textureOf(const QImage& image) {
  if (image.isNull()) return {};
  Handle(Image_PixMap) pixels = new Image_PixMap;
  const auto width = static_cast<Standard_Size>(image.width());
  const auto height = static_cast<Standard_Size>(image.height());
  if (!pixels->InitTrash(Image_Format_RGB, width, height)) return {};
  pixels->SetTopDown(true);
  for (int y = 0; y < image.height(); ++y) {
    std::memcpy(pixels->ChangeRow(static_cast<Standard_Size>(y)), image.constScanLine(y),
                width * 3);
  }
  Handle(Graphic3d_Texture2Dmanual) texture = new Graphic3d_Texture2Dmanual(pixels);
  texture->EnableModulate();
  texture->EnableRepeat();
  // Drawn without a graphics card, more than this would cost half of a change again.
  texture->GetParams()->SetFilter(Graphic3d_TOTF_BILINEAR);
  return texture;
}

}  // namespace

void layFigure(const TopoDS_Shape& shape, const std::vector<TopoDS_Shape>& endFaces,
               joinery::PartAxis grain) {
  for (TopExp_Explorer e(shape, TopAbs_FACE); e.More(); e.Next()) {
    const bool end = std::ranges::any_of(
        endFaces, [&](const TopoDS_Shape& face) { return face.IsSame(e.Current()); });
    layOver(TopoDS::Face(e.Current()), end, joinery::indexOf(grain));
  }
}

gp_Pnt2d figureOrigin(const joinery::Part& part) {
  const std::size_t h = std::hash<std::string>{}(part.match.empty() ? part.name : part.match);
  constexpr std::size_t kPlaces = 1024;
  return {static_cast<double>(h % kPlaces) / kPlaces,
          static_cast<double>(h / kPlaces % kPlaces) / kPlaces};
}

const GrainPictures::Pair& GrainPictures::of(WoodStructure structure) {
  const auto [entry, isNew] = made_.try_emplace(structure);
  if (isNew) {
    entry->second = {textureOf(longFigure(structure)), textureOf(endFigure(structure))};
  }
  return entry->second;
}

}  // namespace dryfit::viewer

// The figure of the wood lies on the solids as the grain runs in them.

#include "viewer/view/grain_look.h"

#include <gtest/gtest.h>

#include <BRepTools.hxx>
#include <BRep_Tool.hxx>
#include <Poly_Triangulation.hxx>
#include <TopExp_Explorer.hxx>
#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Face.hxx>
#include <algorithm>
#include <filesystem>

#include "joinery/file/model_file.h"
#include "joinery/fit/dry_fit.h"
#include "joinery/making/measure.h"
#include "viewer/view/part_shapes.h"

namespace dryfit::viewer {
namespace {

/// Where a node lies in the figure, in copies of its picture.
double alongFigure(const TopoDS_Face& face, const Handle(Poly_Triangulation) & mesh, int node) {
  double uMin = 0, uMax = 0, vMin = 0, vMax = 0;
  BRepTools::UVBounds(face, uMin, uMax, vMin, vMax);
  return (mesh->UVNode(node).X() - uMin) / (uMax - uMin);
}

TEST(GrainLook, RunsAlongTheGrainOfEveryPartInMillimetres) {
  const auto path = std::filesystem::path(DRYFIT_MODELS) / "reading-table.dryfit";
  const auto file = joinery::ModelFile::load(path);
  ASSERT_TRUE(file);
  const auto fit = joinery::dryFit(file->model(), joinery::usualBasis(file->model()));
  ASSERT_TRUE(fit);
  const auto shapes = makePartShapes(*fit, nullptr, nullptr);
  int faces = 0;
  for (std::size_t i = 0; i < shapes->parts.size(); ++i) {
    const PartShape& part = shapes->parts[i];
    if (!part.grain) continue;
    const int grain = joinery::indexOf(*part.grain) + 1;
    for (TopExp_Explorer at(part.shape, TopAbs_FACE); at.More(); at.Next()) {
      const auto isEnd = [&](const TopoDS_Shape& end) { return end.IsSame(at.Current()); };
      if (std::ranges::any_of(part.endFaces, isEnd)) continue;
      const TopoDS_Face face = TopoDS::Face(at.Current());
      TopLoc_Location place;
      const Handle(Poly_Triangulation) mesh = BRep_Tool::Triangulation(face, place);
      ASSERT_TRUE(mesh->HasUVNodes());
      ASSERT_TRUE(mesh->HasNormals()) << "worked out before the figure was laid";
      for (int node = 1; node <= mesh->NbNodes(); ++node) {
        const gp_Pnt point = mesh->Node(node).Transformed(place.Transformation());
        EXPECT_NEAR(alongFigure(face, mesh, node) * kFigureAlong, point.Coord(grain), 1e-6);
      }
      ++faces;
    }
  }
  EXPECT_GT(faces, 100);
}

TEST(GrainLook, IsTheSameForPartsThatAreToMatchAndForNoOthers) {
  joinery::Part left, right, other;
  left.name = "left_panel";
  right.name = "right_panel";
  other.name = "rail";
  left.match = right.match = "doors";
  EXPECT_TRUE(figureOrigin(left).IsEqual(figureOrigin(right), 0));
  EXPECT_FALSE(figureOrigin(left).IsEqual(figureOrigin(other), 1e-6));
}

}  // namespace
}  // namespace dryfit::viewer

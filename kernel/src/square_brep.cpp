#include "kernel/src/square_brep.h"

#include <BRep_Builder.hxx>
#include <BRep_Curve3D.hxx>
#include <BRep_TEdge.hxx>
#include <Geom_Line.hxx>
#include <Geom_Plane.hxx>
#include <Poly_PolygonOnTriangulation.hxx>
#include <Poly_Triangulation.hxx>
#include <Precision.hxx>
#include <TColStd_Array1OfInteger.hxx>
#include <TopoDS_Compound.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Face.hxx>
#include <TopoDS_Shell.hxx>
#include <TopoDS_Solid.hxx>
#include <TopoDS_Vertex.hxx>
#include <TopoDS_Wire.hxx>
#include <gp_Ax3.hxx>
#include <gp_Dir.hxx>
#include <vector>

#include "kernel/src/bore_brep.h"
#include "kernel/src/convert.h"
#include "kernel/src/square_mesh.h"

// Why the result is valid without being checked:
// - Corners are at least kSnap apart, ten times the tolerance given to them, and lie on their
// edges'
//   lines to the last bit, and these on their faces' planes: all are made from the same numbers.
// - Two edges meet only in a shared corner, and two faces only in shared edges and corners, because
//   both are unions of cells' edges and faces that are split wherever anything else ends.
// - Every edge bounds two faces and is used once in each direction: round an edge, one cell or
// three
//   of the four are wood, so that two of the four cell faces are boundary, with the wood on
//   opposite sides as one turns round the edge. (Two cells across: refused by `arrange`.)
// - So every shell is closed and oriented, and round every corner it is one disc (else refused).
// - Loops run with the face on the left seen along the outward normal, so outer loops turn
//   counter-clockwise about it and holes clockwise; loops are split where they touch themselves.
// - A bore's circles lie inside their faces and touch nothing, so they are holes of these like any
//   other. Seen along the way it is bored, the mouth's circle turns clockwise by the right-hand
//   rule about that way; the wall's surface looks away from its middle line and is used reversed.
// The tests hold all of it against the library's own checker, thousands of times.

namespace dryfit::kernel {
namespace {

gp_Dir direction(int axis, bool up) {
  Vec3 v;
  v.set(axis, up ? 1 : -1);
  return toDirection(v);
}

Handle(Poly_Triangulation) triangulation(const FaceMesh& mesh, const gp_Dir& outward) {
  Handle(Poly_Triangulation) net =
      new Poly_Triangulation(int(mesh.points.size()), int(mesh.triangles.size()), false, true);
  for (std::size_t i = 0; i < mesh.points.size(); ++i) {
    net->SetNode(int(i) + 1, toLibrary(mesh.points[i]));
    net->SetNormal(int(i) + 1, outward);
  }
  for (std::size_t i = 0; i < mesh.triangles.size(); ++i) {
    const auto& [a, b, c] = mesh.triangles[i];
    net->SetTriangle(int(i) + 1, Poly_Triangle(a + 1, b + 1, c + 1));
  }
  return net;
}

class Maker {
 public:
  /// `meshes`: by face; null for none.
  Maker(const SquareWork& work, const std::vector<FaceMesh>* meshes)
      : work_(work), meshes_(meshes) {
    makeVertices();
    makeEdges();
    for (const SquareWork::Bore& bore : work_.bores) bores_.push_back(shapesOf(bore));
  }

  [[nodiscard]] TopoDS_Shape shape() const {
    if (work_.lumps.size() == 1) return solid(work_.lumps.front());
    TopoDS_Compound all;
    builder_.MakeCompound(all);
    for (const SquareWork::Lump& lump : work_.lumps) builder_.Add(all, solid(lump));
    return all;
  }

 private:
  void makeVertices() {
    vertices_.resize(work_.corners.size());
    for (std::size_t i = 0; i < vertices_.size(); ++i) {
      builder_.MakeVertex(vertices_[i], toLibrary(work_.at(work_.corners[i])),
                          Precision::Confusion());
    }
  }

  void makeEdges() {
    const std::array<gp_Dir, 3> along{direction(0, true), direction(1, true), direction(2, true)};
    edges_.resize(work_.edges.size());
    for (std::size_t i = 0; i < edges_.size(); ++i) {
      const SquareWork::Edge& e = work_.edges[i];
      const Point3 from = work_.at(work_.corners[e.from]);
      const Point3 to = work_.at(work_.corners[e.to]);
      // What BRep_Builder::MakeEdge and Range come to, without their search for a curve to replace.
      const Handle(BRep_TEdge) edge = new BRep_TEdge();
      const Handle(BRep_Curve3D) curve =
          new BRep_Curve3D(new Geom_Line(toLibrary(from), along[e.axis]), TopLoc_Location());
      curve->SetRange(0, to[e.axis] - from[e.axis]);
      edge->ChangeCurves().Append(curve);
      edge->Tolerance(Precision::Confusion());
      edges_[i].TShape(edge);
      builder_.Add(edges_[i], vertices_[e.from].Oriented(TopAbs_FORWARD));
      builder_.Add(edges_[i], vertices_[e.to].Oriented(TopAbs_REVERSED));
    }
  }

  [[nodiscard]] TopoDS_Shape wire(const SquareWork::Loop& loop) const {
    TopoDS_Wire wire;
    builder_.MakeWire(wire);
    for (auto i = loop.first; i < loop.last; ++i) {
      const SquareWork::Use& use = work_.uses[i];
      builder_.Add(wire,
                   edges_[use.edge].Oriented(use.backwards ? TopAbs_REVERSED : TopAbs_FORWARD));
    }
    wire.Closed(true);
    return wire;
  }

  [[nodiscard]] TopoDS_Shape face(std::int32_t number) const {
    const SquareWork::Face& f = work_.faces[number];
    const SquareWork::Use& first = work_.uses[work_.loops[f.firstLoop].first];
    const Point3 origin = work_.at(work_.corners[work_.edges[first.edge].from]);
    const gp_Ax3 axes(toLibrary(origin), direction(f.axis, f.looksUp),
                      direction((f.axis + 1) % 3, true));
    TopoDS_Face face;
    builder_.MakeFace(face, new Geom_Plane(axes), Precision::Confusion());
    for (auto loop = f.firstLoop; loop < f.lastLoop; ++loop) {
      builder_.Add(face, wire(work_.loops[loop]));
    }
    for (std::size_t b = 0; b < bores_.size(); ++b) {
      if (work_.bores[b].mouthFace == number) builder_.Add(face, bores_[b].mouth);
      if (work_.bores[b].exitFace == number) builder_.Add(face, bores_[b].exit);
    }
    if (meshes_ != nullptr) hangMesh(face, f, (*meshes_)[number]);
    return face;
  }

  /// Triangles on a face, and on its edges the nodes that they share with them.
  void hangMesh(const TopoDS_Face& face, const SquareWork::Face& f, const FaceMesh& mesh) const {
    const Handle(Poly_Triangulation) net = triangulation(mesh, direction(f.axis, f.looksUp));
    builder_.UpdateFace(face, net);
    for (auto loop = f.firstLoop, node = 0; loop < f.lastLoop; ++loop) {
      const SquareWork::Loop& l = work_.loops[loop];
      const std::int32_t count = l.last - l.first;
      for (std::int32_t i = 0; i < count; ++i) {
        const SquareWork::Use& use = work_.uses[l.first + i];
        TColStd_Array1OfInteger ends(1, 2);
        ends(use.backwards ? 2 : 1) = node + i + 1;
        ends(use.backwards ? 1 : 2) = node + (i + 1) % count + 1;
        const Handle(Poly_PolygonOnTriangulation) line = new Poly_PolygonOnTriangulation(ends);
        builder_.UpdateEdge(edges_[use.edge], line, net, TopLoc_Location());
      }
      node += count;
    }
  }

  [[nodiscard]] TopoDS_Shape shell(const SquareWork::Shell& s) const {
    TopoDS_Shell shell;
    builder_.MakeShell(shell);
    for (auto f = s.firstFace; f < s.lastFace; ++f) builder_.Add(shell, face(f));
    for (std::size_t b = 0; b < bores_.size(); ++b) {
      const std::int32_t mouth = work_.bores[b].mouthFace;
      if (mouth < s.firstFace || mouth >= s.lastFace) continue;
      for (const TopoDS_Shape& wall : bores_[b].faces) builder_.Add(shell, wall);
    }
    shell.Closed(true);
    return shell;
  }

  [[nodiscard]] TopoDS_Shape solid(const SquareWork::Lump& lump) const {
    TopoDS_Solid solid;
    builder_.MakeSolid(solid);
    for (auto s = lump.firstShell; s < lump.lastShell; ++s) {
      builder_.Add(solid, shell(work_.shells[s]));
    }
    return solid;
  }

  const SquareWork& work_;
  const std::vector<FaceMesh>* meshes_;
  BRep_Builder builder_;
  std::vector<TopoDS_Vertex> vertices_;
  std::vector<TopoDS_Edge> edges_;
  std::vector<BoreShapes> bores_;
};

}  // namespace

TopoDS_Shape squareShape(const SquareWork& work) {
  return Maker(work, nullptr).shape();
}

TopoDS_Shape meshedSquareShape(const SquareWork& work) {
  std::vector<FaceMesh> meshes;
  meshes.reserve(work.faces.size());
  for (const SquareWork::Face& face : work.faces) {
    meshes.push_back(meshOf(work, face));
    if (meshes.back().triangles.empty()) return {};
  }
  return Maker(work, &meshes).shape();
}

}  // namespace dryfit::kernel

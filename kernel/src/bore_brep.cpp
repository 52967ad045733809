#include "kernel/src/bore_brep.h"

#include <BRep_Builder.hxx>
#include <Geom2d_Line.hxx>
#include <Geom_Circle.hxx>
#include <Geom_CylindricalSurface.hxx>
#include <Geom_Line.hxx>
#include <Geom_Plane.hxx>
#include <Precision.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Vertex.hxx>
#include <TopoDS_Wire.hxx>
#include <gp_Ax2.hxx>
#include <gp_Ax3.hxx>
#include <gp_Dir2d.hxx>
#include <gp_Pnt2d.hxx>
#include <initializer_list>
#include <numbers>

#include "kernel/src/convert.h"

namespace dryfit::kernel {
namespace {

constexpr double kTurn = 2 * std::numbers::pi;

Handle(Geom2d_Line) line2d(double u, double v, bool alongU) {
  return new Geom2d_Line(gp_Pnt2d(u, v), alongU ? gp_Dir2d(1, 0) : gp_Dir2d(0, 1));
}

/// The bore's own axes: z the way it is bored, from the middle of its mouth.
gp_Ax3 axesOf(const SquareWork::Bore& bore) {
  Vec3 way;
  way.set(bore.axis, bore.up ? 1 : -1);
  return {toLibrary(bore.mouth), toDirection(way), toDirection(seamSide(way))};
}

class Borer {
 public:
  explicit Borer(const SquareWork::Bore& bore) : bore_(bore), axes_(axesOf(bore)), farAxes_(axes_) {
    farAxes_.SetLocation(axes_.Location().Translated(gp_Vec(axes_.Direction()) * bore.depth));
  }

  [[nodiscard]] BoreShapes make() {
    const TopoDS_Vertex nearEnd = vertex(axes_);
    const TopoDS_Vertex farEnd = vertex(farAxes_);
    mouth_ = circle(axes_, nearEnd);
    far_ = circle(farAxes_, farEnd);
    seam_ = seam(nearEnd, farEnd);
    BoreShapes shapes;
    shapes.mouth = wire({mouth_});
    shapes.faces.push_back(wall());
    if (bore_.exitFace < 0) {
      shapes.faces.push_back(bottom());
    } else {
      shapes.exit = wire({far_.Reversed()});
    }
    return shapes;
  }

 private:
  [[nodiscard]] TopoDS_Vertex vertex(const gp_Ax3& at) const {
    TopoDS_Vertex made;
    const gp_Pnt point = at.Location().Translated(gp_Vec(at.XDirection()) * bore_.radius);
    builder_.MakeVertex(made, point, Precision::Confusion());
    return made;
  }

  [[nodiscard]] TopoDS_Edge edge(const Handle(Geom_Curve) & curve, double length,
                                 const TopoDS_Vertex& from, const TopoDS_Vertex& to) const {
    TopoDS_Edge made;
    builder_.MakeEdge(made, curve, Precision::Confusion());
    builder_.Add(made, from.Oriented(TopAbs_FORWARD));
    builder_.Add(made, to.Oriented(TopAbs_REVERSED));
    builder_.Range(made, 0, length);
    return made;
  }

  [[nodiscard]] TopoDS_Edge circle(const gp_Ax3& at, const TopoDS_Vertex& start) const {
    return edge(new Geom_Circle(at.Ax2(), bore_.radius), kTurn, start, start);
  }

  [[nodiscard]] TopoDS_Edge seam(const TopoDS_Vertex& from, const TopoDS_Vertex& to) const {
    const gp_Pnt start = axes_.Location().Translated(gp_Vec(axes_.XDirection()) * bore_.radius);
    return edge(new Geom_Line(start, axes_.Direction()), bore_.depth, from, to);
  }

  [[nodiscard]] TopoDS_Shape wire(std::initializer_list<TopoDS_Shape> edges) const {
    TopoDS_Wire made;
    builder_.MakeWire(made);
    for (const TopoDS_Shape& e : edges) builder_.Add(made, e);
    made.Closed(true);
    return made;
  }

  /// Looks at the bore's middle line, away from the wood: its surface reversed.
  [[nodiscard]] TopoDS_Shape wall() const {
    TopoDS_Face face;
    builder_.MakeFace(face, new Geom_CylindricalSurface(axes_, bore_.radius),
                      Precision::Confusion());
    const double tolerance = Precision::Confusion();
    builder_.UpdateEdge(mouth_, line2d(0, 0, true), face, tolerance);
    builder_.UpdateEdge(far_, line2d(0, bore_.depth, true), face, tolerance);
    builder_.UpdateEdge(seam_, line2d(kTurn, 0, false), line2d(0, 0, false), face, tolerance);
    builder_.Continuity(seam_, face, face, GeomAbs_CN);
    builder_.Add(face, wire({mouth_, seam_, far_.Reversed(), seam_.Reversed()}));
    return face.Reversed();
  }

  /// Looks back to the mouth.
  [[nodiscard]] TopoDS_Shape bottom() const {
    const gp_Ax3 axes(farAxes_.Location(), axes_.Direction().Reversed(), axes_.XDirection());
    TopoDS_Face face;
    builder_.MakeFace(face, new Geom_Plane(axes), Precision::Confusion());
    builder_.Add(face, wire({far_.Reversed()}));
    return face;
  }

  const SquareWork::Bore& bore_;
  gp_Ax3 axes_, farAxes_;
  BRep_Builder builder_;
  TopoDS_Edge mouth_, far_, seam_;
};

}  // namespace

BoreShapes shapesOf(const SquareWork::Bore& bore) {
  return Borer(bore).make();
}

}  // namespace dryfit::kernel

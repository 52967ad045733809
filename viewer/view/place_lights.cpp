#include "viewer/view/place_lights.h"

#include <BRepBndLib.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRep_Builder.hxx>
#include <Bnd_Box.hxx>
#include <Prs3d_LineAspect.hxx>
#include <Prs3d_PointAspect.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS_Compound.hxx>

#include "kernel/occt_bridge.h"
#include "viewer/look/look.h"
#include "viewer/view/part_shapes.h"
#include "viewer/view/view_colour.h"

namespace dryfit::viewer {
namespace {

constexpr double kLitGlass = 0.45;    // share of light that goes through a lit face
constexpr double kGhostGlass = 0.55;  // and through the ghost
constexpr double kLine = 3.0;         // pixels
constexpr double kDot = 3.0;          // times the library's smallest mark

gp_Pnt pnt(const kernel::Point3& p) {
  return {p.x, p.y, p.z};
}

/// True where a face of a part lies on what a feature cuts or leaves standing.
bool liesOn(const TopoDS_Shape& face, const kernel::Box3& extent) {
  Bnd_Box bounds;
  BRepBndLib::AddOptimal(face, bounds, Standard_False, Standard_False);
  if (bounds.IsVoid()) return false;
  constexpr double kNear = 0.2;  // mm: a cheek stands back by half of the fit
  const gp_Pnt lo = bounds.CornerMin(), hi = bounds.CornerMax();
  const kernel::Box3 room = extent.grown(kNear);
  return lo.X() >= room.min.x && lo.Y() >= room.min.y && lo.Z() >= room.min.z &&
         hi.X() <= room.max.x && hi.Y() <= room.max.y && hi.Z() <= room.max.z;
}

}  // namespace

int PlaceLights::showJoint(const Assembled& assembled, std::optional<joinery::JointId> joint) {
  takeAway(joint_);
  if (!joint) return 0;
  int count = 0;
  const joinery::Piece& piece = assembled.fit->piece;
  for (const joinery::PartId mate : piece.joints[joint->index()].mates) {
    const PartShape& own = assembled.shapes->parts[mate.index()];
    BRep_Builder builder;
    TopoDS_Compound faces;
    builder.MakeCompound(faces);
    int found = 0;
    for (TopExp_Explorer at(own.shape, TopAbs_FACE); at.More(); at.Next()) {
      for (const joinery::Feature& feature : piece.parts[mate.index()].featuresOf(*joint)) {
        if (!liesOn(at.Current(), feature.extent)) continue;
        builder.Add(faces, at.Current());
        ++found;
        break;
      }
    }
    if (found == 0) continue;
    count += found;
    Handle(AIS_Shape) light = new AIS_Shape(faces.Moved(TopLoc_Location(own.place)));
    light->SetColor(occ(colour::takenPlace));
    light->SetTransparency(kLitGlass);
    light->SetZLayer(Graphic3d_ZLayerId_Topmost);
    light->Attributes()->SetFaceBoundaryDraw(Standard_True);
    light->Attributes()->SetFaceBoundaryAspect(
        new Prs3d_LineAspect(occ(colour::takenPlace), Aspect_TOL_SOLID, kLine / 2));
    context_->Display(light, AIS_Shaded, -1, Standard_False);
    joint_.emplace_back(light);
  }
  return count;
}

void PlaceLights::put(Lit& lit, const joinery::Piece& piece, const joinery::PlaceOnPart& place,
                      bool taken) {
  const Quantity_Color colour = occ(taken ? colour::takenPlace : colour::pointedPlace);
  const TopoDS_Shape shape = kernel::outlineShape(joinery::outlineOf(piece, place));
  Handle(AIS_Shape) light = new AIS_Shape(shape);
  light->SetColor(colour);
  light->SetWidth(kLine);
  light->SetZLayer(Graphic3d_ZLayerId_Topmost);
  const bool face = place.kind() == joinery::PlaceKind::face;
  if (face) {
    light->SetTransparency(kLitGlass);
    light->Attributes()->SetFaceBoundaryDraw(Standard_True);
    light->Attributes()->SetFaceBoundaryAspect(
        new Prs3d_LineAspect(colour, Aspect_TOL_SOLID, kLine));
  } else {
    light->Attributes()->SetPointAspect(new Prs3d_PointAspect(Aspect_TOM_BALL, colour, kDot));
  }
  context_->Display(light, face ? AIS_Shaded : AIS_WireFrame, -1, Standard_False);
  lit.emplace_back(light);
}

void PlaceLights::takeAway(Lit& lit) {
  for (const auto& light : lit) context_->Remove(light, Standard_False);
  lit.clear();
}

void PlaceLights::show(const joinery::Piece& piece,
                       const std::optional<joinery::PlaceOnPart>& pointed,
                       const std::vector<joinery::PlaceOnPart>& taken) {
  takeAway(pointed_);
  takeAway(taken_);
  for (const joinery::PlaceOnPart& place : taken) put(taken_, piece, place, true);
  if (pointed) put(pointed_, piece, *pointed, false);
}

void PlaceLights::showPart(const TopoDS_Shape& part) {
  takeAway(part_);
  if (part.IsNull()) return;
  Handle(AIS_Shape) light = new AIS_Shape(part);
  light->SetColor(occ(colour::hover));
  // Before the part's own faces, which stand back a little from its edges.
  constexpr float kStandsBack = 0.5F;
  light->SetPolygonOffsets(Aspect_POM_Fill, kStandsBack, kStandsBack);
  light->SetZLayer(Graphic3d_ZLayerId_Top);
  context_->Display(light, AIS_Shaded, -1, Standard_False);
  part_.emplace_back(light);
}

void PlaceLights::showGhost(const std::optional<kernel::Box3>& box) {
  if (!box || box->empty()) {
    if (!ghost_.IsNull()) context_->Remove(ghost_, Standard_False);
    ghost_.Nullify();
    return;
  }
  const TopoDS_Shape shape = BRepPrimAPI_MakeBox(pnt(box->min), pnt(box->max)).Shape();
  if (!ghost_.IsNull()) {
    ghost_->SetShape(shape);
    context_->Redisplay(ghost_, Standard_False);
    return;
  }
  ghost_ = new AIS_Shape(shape);
  ghost_->SetColor(occ(colour::ghost));
  ghost_->SetTransparency(kGhostGlass);
  ghost_->SetZLayer(Graphic3d_ZLayerId_Topmost);
  ghost_->Attributes()->SetFaceBoundaryDraw(Standard_True);
  ghost_->Attributes()->SetFaceBoundaryAspect(
      new Prs3d_LineAspect(occ(colour::accent), Aspect_TOL_SOLID, kLine / 2));
  context_->Display(ghost_, AIS_Shaded, -1, Standard_False);
}

void PlaceLights::clear() {
  for (Lit* lit : {&part_, &pointed_, &taken_, &joint_}) takeAway(*lit);
  showGhost(std::nullopt);
}

}  // namespace dryfit::viewer

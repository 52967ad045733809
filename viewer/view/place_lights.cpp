#include "viewer/view/place_lights.h"

#include <BRepPrimAPI_MakeBox.hxx>
#include <Prs3d_LineAspect.hxx>
#include <Prs3d_PointAspect.hxx>

#include "kernel/occt_bridge.h"
#include "viewer/look/look.h"
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

}  // namespace

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
  takeAway(pointed_);
  takeAway(taken_);
  showGhost(std::nullopt);
}

}  // namespace dryfit::viewer

#include "viewer/view/scene.h"

#include <AIS_Shape.hxx>
#include <Aspect_DisplayConnection.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <Prs3d_LineAspect.hxx>
#include <Prs3d_ShadingAspect.hxx>
#include <V3d_AmbientLight.hxx>
#include <V3d_DirectionalLight.hxx>
#include <algorithm>
#include <cmath>

#include "viewer/look/look.h"
#include "viewer/view/part_shapes.h"
#include "viewer/view/still_view.h"
#include "viewer/view/view_colour.h"

namespace dryfit::viewer {
namespace {

constexpr double kGlass = 0.90;        // share of light that goes through parts set aside
constexpr double kMarkerRoom = 1.5;    // mm between a finding's box and the lines drawn round it
constexpr double kMarkerLeast = 12.0;  // mm; smaller places could not be seen

Handle(Prs3d_Drawer) highlightStyle(const QColor& colour, float transparency) {
  Handle(Prs3d_Drawer) style = new Prs3d_Drawer;
  style->SetMethod(Aspect_TOHM_COLOR);
  style->SetColor(occ(colour));
  style->SetTransparency(transparency);
  style->SetDisplayMode(AIS_Shaded);
  return style;
}

/// Light for a piece by a window: tops lightest, then fronts, then sides, so that every edge reads
/// without shadows. Strengths are linear.
void addLights(const Handle(V3d_Viewer) & viewer) {
  viewer->AddLight(new V3d_AmbientLight(Quantity_Color(0.36, 0.36, 0.375, Quantity_TOC_RGB)));
  const auto lamp = [&](const gp_Dir& direction, double strength) {
    Handle(V3d_DirectionalLight) light =
        new V3d_DirectionalLight(direction, Quantity_Color(1.0, 0.985, 0.96, Quantity_TOC_RGB));
    light->SetIntensity(static_cast<Standard_ShortReal>(strength));
    viewer->AddLight(light);
  };
  lamp(gp_Dir(0.35, 0.60, -0.90), 0.86);   // from the front, high on the left
  lamp(gp_Dir(-0.70, -0.60, 0.25), 0.24);  // back from the floor and the far wall
  viewer->SetLightOn();
}

const QColor kGlassEdge{0xbd, 0xb6, 0xab};

bool sameMotion(const gp_Trsf& a, const gp_Trsf& b) {
  for (int row = 1; row <= 3; ++row) {
    for (int column = 1; column <= 4; ++column) {
      if (a.Value(row, column) != b.Value(row, column)) return false;
    }
  }
  return true;
}

Handle(Prs3d_LineAspect) edgeLines(const QColor& wood) {
  return new Prs3d_LineAspect(occ(edgeColour(wood)), Aspect_TOL_SOLID, 1.3);
}

}  // namespace

Scene::Scene() {
  // What fails is told once, in our words: the library's own printers would write to the console.
  Message::DefaultMessenger()->ChangePrinters().Clear();
  Handle(Aspect_DisplayConnection) display = new Aspect_DisplayConnection;
  Handle(StillDriver) driver = new StillDriver(display);
  viewer_ = new V3d_Viewer(driver);
  addLights(viewer_);
  // Light by corner is enough for wood without gloss, and costs half of light by pixel in software.
  viewer_->SetDefaultShadingModel(Graphic3d_TOSM_VERTEX);
  context_ = new AIS_InteractiveContext(viewer_);
  context_->SetAutoActivateSelection(Standard_True);
  lights_.emplace(context_);
  context_->SetHighlightStyle(Prs3d_TypeOfHighlight_Selected,
                              highlightStyle(QColor(0x5d, 0x9a, 0xb8), 0.0F));

  const Handle(Prs3d_Drawer)& drawer = context_->DefaultDrawer();
  drawer->SetFaceBoundaryDraw(Standard_True);
  drawer->SetFaceBoundaryAspect(edgeLines(Qt::white));
}

void Scene::dressView(const Handle(V3d_View) & view) {
  view->SetBgGradientColors(occ(colour::skyTop), occ(colour::skyBottom), Aspect_GFM_VER);
}

Handle(V3d_View) Scene::makeView() const {
  Handle(V3d_View) view = viewer_->CreateView();
  dressView(view);
  view->SetImmediateUpdate(Standard_False);
  view->ChangeRenderingParams().NbMsaaSamples = kEdgeSamples;
  view->Camera()->SetProjectionType(Graphic3d_Camera::Projection_Orthographic);
  lookAt(view, Side::corner);
  return view;
}

void Scene::show(std::shared_ptr<const Assembled> assembled) {
  bringOut(nullptr);
  const std::vector<PartShape>& shapes = assembled->shapes->parts;
  while (parts_.size() > shapes.size()) {
    context_->Remove(parts_.back(), Standard_False);
    parts_.pop_back();
  }
  parts_.resize(shapes.size());
  edges_.resize(shapes.size());
  dresses_.resize(shapes.size());
  glass_.assign(shapes.size(), false);
  // Where parts come or go, their numbers mean others.
  if (hidden_.size() != shapes.size()) {
    hidden_.assign(shapes.size(), false);
    seeThrough_.assign(shapes.size(), false);
    offsets_.clear();
  }
  assembled_ = std::move(assembled);
  bounds_ = boxRound();
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    Handle(AIS_ColoredShape)& part = parts_[i];
    if (part.IsNull() || !part->Shape().IsPartner(shapes[i].shape) || dresses_[i] != dressOf(i)) {
      const bool wasChosen = !part.IsNull() && context_->IsSelected(part);
      if (!part.IsNull()) context_->Remove(part, Standard_False);
      part = new AIS_ColoredShape(shapes[i].shape);
      dressPart(i);
      part->SetLocalTransformation(placeOf(i));
      context_->Display(part, AIS_Shaded, 0, Standard_False);
      if (wasChosen) context_->AddOrRemoveSelected(part, Standard_False);
    } else if (!sameMotion(part->LocalTransformation(), placeOf(i))) {
      context_->SetLocation(part, TopLoc_Location(placeOf(i)));
    }
  }
  applyHidden();
  aside_.assign(shapes.size(), false);
  applyGlass();
  outlineChosen();
  pointToNothing();
}

void Scene::hide(const std::vector<joinery::PartId>& parts) {
  hidden_.assign(parts_.size(), false);
  for (const joinery::PartId id : parts) {
    if (id.index() < hidden_.size()) hidden_[id.index()] = true;
  }
  applyHidden();
  outlineChosen();
}

std::vector<joinery::PartId> Scene::hidden() const {
  std::vector<joinery::PartId> parts;
  for (std::size_t i = 0; i < hidden_.size(); ++i) {
    if (hidden_[i]) parts.emplace_back(i);
  }
  return parts;
}

void Scene::applyHidden() {
  for (std::size_t i = 0; i < parts_.size(); ++i) {
    if (hidden_[i] == (context_->IsDisplayed(parts_[i]) == Standard_False)) continue;
    if (hidden_[i]) {
      context_->Erase(parts_[i], Standard_False);
    } else {
      context_->Display(parts_[i], AIS_Shaded, 0, Standard_False);
    }
  }
}

void Scene::clear() {
  bringOut(nullptr);
  lights_->clear();
  for (const auto& part : parts_) context_->Remove(part, Standard_False);
  parts_.clear();
  outlineChosen();
  edges_.clear();
  dresses_.clear();
  glass_.clear();
  assembled_.reset();
  bounds_ = {};
}

bool Scene::Dress::operator==(const Dress& other) const {
  return wood == other.wood && figure.along == other.figure.along &&
         figure.end == other.figure.end && origin.IsEqual(other.origin, 0) &&
         std::equal(endFaces.begin(), endFaces.end(), other.endFaces.begin(), other.endFaces.end(),
                    [](const TopoDS_Shape& p, const TopoDS_Shape& q) { return p.IsSame(q); });
}

Scene::Dress Scene::dressOf(std::size_t index) {
  const joinery::Piece& piece = assembled_->fit->piece;
  const auto& materials = piece.model.materials;
  const joinery::Part& part = piece.part(joinery::PartId(index));
  const std::string& name = part.material;
  const auto material = std::find_if(materials.begin(), materials.end(),
                                     [&](const joinery::Material& m) { return m.name == name; });
  const QColor wood =
      material == materials.end()
          ? woodColour({}, 0)
          : woodColour(*material, static_cast<std::size_t>(material - materials.begin()));
  const PartShape& shape = assembled_->shapes->parts[index];
  const bool figured = grain_ && shape.grain && material != materials.end();
  return {wood, shape.endFaces, figures_.of(figured ? structureOf(*material) : WoodStructure::none),
          figureOrigin(part)};
}

namespace {

void wear(const Handle(Prs3d_Drawer) & drawer, const Handle(Graphic3d_TextureMap) & figure) {
  if (figure.IsNull()) return;
  const Handle(Graphic3d_AspectFillArea3d)& aspect = drawer->ShadingAspect()->Aspect();
  aspect->SetTextureMap(figure);
  aspect->SetTextureMapOn(true);
}

}  // namespace

void Scene::showGrain(bool shown) {
  if (grain_ == shown) return;
  grain_ = shown;
  if (assembled_) show(assembled_);
}

void Scene::dressPart(std::size_t index) {
  dresses_[index] = dressOf(index);
  const auto& [wood, endFaces, figure, origin] = dresses_[index];
  const Handle(AIS_ColoredShape)& part = parts_[index];
  Graphic3d_MaterialAspect matt(Graphic3d_NameOfMaterial_UserDefined);
  matt.SetShininess(0.05F);
  matt.SetSpecularColor(Quantity_Color(0.06, 0.06, 0.06, Quantity_TOC_sRGB));
  part->SetMaterial(matt);
  part->SetColor(occ(wood));
  part->SetTextureOriginUV(origin);
  wear(part->Attributes(), figure.along);
  // A colour for the wood would colour its edges too.
  edges_[index] = edgeLines(wood);
  part->Attributes()->SetFaceBoundaryAspect(edges_[index]);
  for (const TopoDS_Shape& face : endFaces) {
    part->SetCustomColor(face, occ(endGrainColour(wood)));
    part->CustomAspects(face)->SetFaceBoundaryAspect(edges_[index]);
    wear(part->CustomAspects(face), figure.end);
  }
}

void Scene::choose(const std::vector<joinery::PartId>& parts) {
  context_->ClearSelected(Standard_False);
  for (const joinery::PartId id : parts) {
    if (id.index() < parts_.size()) {
      context_->AddOrRemoveSelected(parts_[id.index()], Standard_False);
    }
  }
  outlineChosen();
}

/// A bottom inside its case is hidden by all else; its edges show where it is.
void Scene::outlineChosen() {
  for (const auto& object : outlines_) context_->Remove(object, Standard_False);
  outlines_.clear();
  for (const joinery::PartId id : chosen()) {
    const Handle(AIS_ColoredShape)& part = parts_[id.index()];
    Handle(AIS_Shape) lines = new AIS_Shape(part->Shape());
    lines->SetLocalTransformation(part->LocalTransformation());
    lines->SetColor(occ(colour::accent));
    lines->SetWidth(1.5);
    lines->SetZLayer(Graphic3d_ZLayerId_Topmost);
    context_->Display(lines, AIS_WireFrame, -1, Standard_False);
    outlines_.emplace_back(lines);
  }
}

std::vector<joinery::PartId> Scene::chosen() const {
  std::vector<joinery::PartId> ids;
  for (std::size_t i = 0; i < parts_.size(); ++i) {
    if (context_->IsSelected(parts_[i])) ids.emplace_back(i);
  }
  return ids;
}

void Scene::pointTo(const Handle(V3d_View) & view, int x, int y) {
  const auto still = Handle(StillView)::DownCast(view->View());
  // What is found is lit by our lights alone, so the picture of the piece stands.
  context_->SetAutomaticHilight(Standard_False);
  still->setPinned(true);
  context_->MoveTo(x, y, view, Standard_False);
  still->setPinned(false);
  context_->SetAutomaticHilight(Standard_True);
}

void Scene::pointToNothing() {
  context_->ClearDetected(Standard_False);
  lightPointed(false);
}

void Scene::lightPointed(bool whole) {
  const auto part = whole ? pointedAt() : std::nullopt;
  lights_->showPart(
      part ? parts_[part->index()]->Shape().Moved(TopLoc_Location(placeOf(part->index())))
           : TopoDS_Shape());
}

std::optional<joinery::PartId> Scene::pointedAt() const {
  if (!context_->HasDetected()) return std::nullopt;
  const Handle(AIS_InteractiveObject) object = context_->DetectedInteractive();
  for (std::size_t i = 0; i < parts_.size(); ++i) {
    if (object == parts_[i]) return joinery::PartId(i);
  }
  return std::nullopt;
}

void Scene::bringOut(const joinery::Finding* finding) {
  for (const auto& object : marker_) context_->Remove(object, Standard_False);
  marker_.clear();
  aside_.assign(parts_.size(), false);
  for (std::size_t i = 0; i < parts_.size(); ++i) {
    aside_[i] = finding != nullptr && !finding->parts.empty() &&
                std::find(finding->parts.begin(), finding->parts.end(), joinery::PartId(i)) ==
                    finding->parts.end();
  }
  applyGlass();
  if (finding != nullptr) showMarker(finding->box, finding->severity);
}

void Scene::setGlass(std::size_t index, bool glass) {
  glass_[index] = glass;
  edges_[index]->SetColor(occ(glass ? kGlassEdge : edgeColour(dresses_[index].wood)));
  if (glass) {
    context_->SetTransparency(parts_[index], kGlass, Standard_False);
  } else {
    context_->UnsetTransparency(parts_[index], Standard_False);
  }
  parts_[index]->SynchronizeAspects();
}

void Scene::showMarker(const kernel::Box3& box, joinery::Severity severity) {
  kernel::Box3 round = box.grown(kMarkerRoom);
  for (int axis = 0; axis < 3; ++axis) {
    const double lacking = kMarkerLeast - round.size()[axis];
    if (lacking <= 0) continue;
    round.min.set(axis, round.min[axis] - lacking / 2);
    round.max.set(axis, round.max[axis] + lacking / 2);
  }
  const TopoDS_Shape shape = BRepPrimAPI_MakeBox(gp_Pnt(round.min.x, round.min.y, round.min.z),
                                                 gp_Pnt(round.max.x, round.max.y, round.max.z));
  const Quantity_Color red = occ(colourOf(severity));
  Handle(AIS_Shape) lines = new AIS_Shape(shape);
  lines->SetColor(red);
  lines->SetWidth(2.5);
  lines->SetZLayer(Graphic3d_ZLayerId_Topmost);
  context_->Display(lines, AIS_WireFrame, -1, Standard_False);
  Handle(AIS_Shape) haze = new AIS_Shape(shape);
  haze->SetColor(red);
  haze->SetTransparency(0.8);
  haze->Attributes()->SetFaceBoundaryDraw(Standard_False);
  context_->Display(haze, AIS_Shaded, -1, Standard_False);
  marker_ = {lines, haze};
}

TopoDS_Shape Scene::shapeOf(joinery::PartId part) const {
  if (part.index() >= parts_.size()) return {};
  return assembled_->shapes->parts[part.index()].placed();
}

void drawOver(const Handle(V3d_View) & view, bool hasty) {
  const auto still = Handle(StillView)::DownCast(view->View());
  still->setHasty(hasty);
  view->RedrawImmediate();
}

}  // namespace dryfit::viewer

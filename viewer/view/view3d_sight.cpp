// How the piece is looked at: in perspective, seen through, cut open, opened out; and its picture.

#include <QEvent>
#include <cmath>

#include "viewer/view/part_shapes.h"
#include "viewer/view/picture.h"
#include "viewer/view/view3d.h"
#include "viewer/view/view3d_impl.h"

namespace dryfit::viewer {

void View3d::setPerspective(bool perspective) {
  if (!impl_->scene || perspective == isPerspective()) return;
  constexpr double kOpening = 30;  // degrees, as of one who stands back from a cupboard
  const Handle(Graphic3d_Camera)& camera = impl_->view->Camera();
  camera->SetFOVy(kOpening);
  camera->SetProjectionType(perspective ? Graphic3d_Camera::Projection_Perspective
                                        : Graphic3d_Camera::Projection_Orthographic);
  fitAll();
}

bool View3d::isPerspective() const {
  return impl_->scene && !impl_->view->Camera()->IsOrthographic();
}

void View3d::seeThrough(const std::vector<joinery::PartId>& parts) {
  if (!impl_->scene) return;
  impl_->scene->seeThrough(parts);
  update();
}

void View3d::showGrain(bool shown) {
  if (!impl_->scene) return;
  impl_->scene->showGrain(shown);
  update();
}

void View3d::setCut(const std::optional<Cut>& cut) {
  if (!impl_->scene) return;
  if (!impl_->cut.IsNull()) impl_->view->RemoveClipPlane(impl_->cut);
  impl_->cut.Nullify();
  if (cut) {
    const double side = cut->keepsFar ? 1 : -1;
    double out[3] = {0, 0, 0};
    out[static_cast<int>(cut->axis)] = side;
    // What has a positive distance stays.
    impl_->cut = new Graphic3d_ClipPlane(Graphic3d_Vec4d(out[0], out[1], out[2], -side * cut->at));
    impl_->cut->SetCapping(Standard_True);
    impl_->cut->SetUseObjectMaterial(Standard_True);
    impl_->view->AddClipPlane(impl_->cut);
  }
  drawQuickly();
}

void View3d::openOut(double share) {
  const auto shown = impl_->scene ? impl_->scene->shown() : nullptr;
  if (!shown) return;
  if (!impl_->opened) impl_->opened = joinery::OpenedOut::of(shown->fit->piece);
  opened_ = share;
  std::vector<kernel::Vec3> offsets;
  for (std::size_t i = 0; i < shown->shapes->parts.size(); ++i) {
    offsets.push_back(impl_->opened->offset(joinery::PartId(i), share));
  }
  impl_->scene->standOff(std::move(offsets));
  // Places are told by where they are when all is together.
  if (share > 0) {
    pointAtPlace(std::nullopt);
    takePlaces({});
  }
  impl_->view->ZFitAll();
  drawQuickly();
}

void View3d::keepInSight() {
  if (!impl_->scene || impl_->scene->bounds().IsVoid()) return;
  double x[2], y[2], z[2];
  impl_->scene->bounds().Get(x[0], y[0], z[0], x[1], y[1], z[1]);
  for (int corner = 0; corner < 8; ++corner) {
    const gp_Pnt at(x[corner & 1], y[corner >> 1 & 1], z[corner >> 2]);
    const gp_Pnt seen = impl_->view->Camera()->Project(at);  // -1 to 1 from edge to edge
    if (std::abs(seen.X()) > 1 || std::abs(seen.Y()) > 1) return fitAll();
  }
}

kernel::Vec3 View3d::offsetOf(joinery::PartId part) const {
  return opened_ > 0 && impl_->opened ? impl_->opened->offset(part, opened_) : kernel::Vec3{};
}

QImage View3d::picture(QSize size) {
  QImage image;
  if (!impl_->ready()) return image;
  draw([&] {
    impl_->view->ChangeRenderingParams().NbMsaaSamples = kEdgeSamples;
    image = imageOf(impl_->view, size);
  });
  update();
  return image;
}

void View3d::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() != QEvent::PaletteChange || !impl_->scene) return;
  impl_->scene->dressView(impl_->view);
  update();
}

kernel::Viewpoint View3d::viewpoint() const {
  kernel::Viewpoint seen;
  if (!impl_->scene) return seen;
  const Handle(Graphic3d_Camera)& camera = impl_->view->Camera();
  const gp_Dir up = camera->OrthogonalizedUp();
  const gp_Dir right = camera->Direction().Crossed(up);
  return {{right.X(), right.Y(), right.Z()}, {up.X(), up.Y(), up.Z()}};
}

}  // namespace dryfit::viewer

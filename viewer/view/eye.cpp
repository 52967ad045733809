#include "viewer/view/eye.h"

namespace dryfit::viewer {
namespace {

/// From the piece to the eye, and what is up there.
struct Pose {
  gp_Dir out, up;
};

Pose poseOf(Side side) {
  switch (side) {
    case Side::front:
      return {gp_Dir(0, -1, 0), gp_Dir(0, 0, 1)};
    case Side::left:
      return {gp_Dir(-1, 0, 0), gp_Dir(0, 0, 1)};
    case Side::right:
      return {gp_Dir(1, 0, 0), gp_Dir(0, 0, 1)};
    case Side::back:
      return {gp_Dir(0, 1, 0), gp_Dir(0, 0, 1)};
    case Side::top:
      return {gp_Dir(0, 0, 1), gp_Dir(0, 1, 0)};
    case Side::corner:
      break;
  }
  return {gp_Dir(-0.55, -1, 0.6), gp_Dir(0, 0, 1)};
}

}  // namespace

kernel::Viewpoint viewpointOf(Side side) {
  const Pose pose = poseOf(side);
  const gp_Dir right = pose.up.Crossed(pose.out);
  const gp_Dir up = pose.out.Crossed(right);
  return {{right.X(), right.Y(), right.Z()}, {up.X(), up.Y(), up.Z()}};
}

void lookAt(const Handle(V3d_View) & view, Side side) {
  const Pose pose = poseOf(side);
  const Handle(Graphic3d_Camera)& camera = view->Camera();
  const gp_Pnt centre = camera->Center();
  const double distance = camera->Distance();
  camera->SetEye(centre.Translated(gp_Vec(pose.out) * distance));
  camera->SetCenter(centre);
  camera->SetUp(pose.up);
  camera->OrthogonalizeUp();
}

void fit(const Handle(V3d_View) & view, const Bnd_Box& box) {
  if (box.IsVoid()) return;
  view->FitAll(box, 0.06, Standard_False);
  view->ZFitAll();
}

Bnd_Box bndOf(const kernel::Box3& box, double room) {
  Bnd_Box b;
  b.Update(box.min.x, box.min.y, box.min.z, box.max.x, box.max.y, box.max.z);
  b.Enlarge(room);
  return b;
}

}  // namespace dryfit::viewer

#pragma once

#include <Aspect_NeutralWindow.hxx>
#include <Graphic3d_ClipPlane.hxx>
#include <QString>
#include <V3d_View.hxx>
#include <optional>

#include "joinery/building/opened_out.h"
#include "viewer/view/scene.h"
#include "viewer/view/view3d.h"

namespace dryfit::viewer {

/// What the view draws with; seen by its own files alone.
struct View3d::Impl {
  std::optional<Scene> scene;  ///< none where it cannot be drawn
  Handle(V3d_View) view;
  Handle(Aspect_NeutralWindow) window;
  QString trouble;
  Handle(Graphic3d_ClipPlane) cut;
  std::optional<joinery::OpenedOut> opened;  ///< of what is shown, once it was asked for
  bool ready() const { return scene.has_value() && !window.IsNull(); }
};

}  // namespace dryfit::viewer

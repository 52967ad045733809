#include "viewer/view/still_view.h"

#include <OpenGl_ArbFBO.hxx>
#include <OpenGl_Context.hxx>
#include <OpenGl_Workspace.hxx>
#include <utility>

namespace dryfit::viewer {

StillView::~StillView() {
  letGo(nullptr);
}

void StillView::letGo(OpenGl_Context* context) {
  still_->Release(context);
  over_->Release(context);
  isOld_ = true;
}

void StillView::ReleaseGlResources(const Handle(OpenGl_Context) & context) {
  letGo(context.get());
  OpenGl_View::ReleaseGlResources(context);
}

void StillView::Redraw() {
  isOld_ = true;
  OpenGl_View::Redraw();
  stands();
}

/// What lies over the picture is drawn beside it, in a buffer of its own: it does not spoil it. The
/// library takes it for spoilt all the same, and would draw the whole piece for the next move.
void StillView::stands() {
  if (myMainSceneFbos[0]->IsValid() && myImmediateSceneFbos[0]->IsValid()) {
    myBackBufferRestored = true;
  }
}

bool StillView::holdStill() {
  const Handle(OpenGl_FrameBuffer)& main = myMainSceneFbos[0];
  // Without several samples the library's own way is the same.
  if (IsInvalidated() || !main->IsValid() || main->NbSamples() == 0) return false;
  if (!myImmediateSceneFbos[0]->IsValid() || !myWorkspace->Activate()) return false;
  const Handle(OpenGl_Context)& context = myWorkspace->GetGlContext();
  if (context->arbFBOBlit == nullptr) return false;
  const Graphic3d_Vec2i size(main->GetVPSizeX(), main->GetVPSizeY());
  for (const auto& buffer : {still_, over_}) {
    const bool fits =
        buffer->IsValid() && buffer->GetVPSizeX() == size.x() && buffer->GetVPSizeY() == size.y();
    if (fits) continue;
    isOld_ = true;
    if (!buffer->Init(context, size, myFboColorFormat, myFboDepthFormat, 0)) return false;
  }
  if (!isOld_) return true;
  main->BindReadBuffer(context);
  still_->BindDrawBuffer(context);
  context->arbFBOBlit->glBlitFramebuffer(
      0, 0, size.x(), size.y(), 0, 0, size.x(), size.y(),
      GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT | GL_STENCIL_BUFFER_BIT, GL_NEAREST);
  still_->UnbindBuffer(context);
  isOld_ = false;
  return true;
}

void StillView::RedrawImmediate() {
  if (!hasty_ || !holdStill()) {
    OpenGl_View::RedrawImmediate();
    return stands();
  }
  const auto change = [this] {
    std::swap(myMainSceneFbos[0], still_);
    std::swap(myImmediateSceneFbos[0], over_);
  };
  change();
  try {
    OpenGl_View::RedrawImmediate();
  } catch (...) {
    change();
    throw;
  }
  change();
  stands();
}

Handle(Graphic3d_CView) StillDriver::CreateView(const Handle(Graphic3d_StructureManager) &
                                                manager) {
  const Handle(StillView) view = new StillView(manager, this, myCaps, &myStateCounter);
  myMapOfView.Add(view);
  for (const Handle(Graphic3d_Layer) & layer : myLayers) {
    view->InsertLayerAfter(layer->LayerId(), layer->LayerSettings(), Graphic3d_ZLayerId_UNKNOWN);
  }
  return Handle(Graphic3d_CView)(view.get());
}

}  // namespace dryfit::viewer

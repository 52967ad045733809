#pragma once

#include <OpenGl_FrameBuffer.hxx>
#include <OpenGl_GraphicDriver.hxx>
#include <OpenGl_View.hxx>

namespace dryfit::viewer {

/// A view that keeps its picture of the piece with the samples of each pixel brought together, so
/// that what lies over the picture is drawn on it without going through all samples again. That is
/// most of the time from a move of the pointer to the light under it where the machine draws
/// without a graphics card.
class StillView : public OpenGl_View {
  DEFINE_STANDARD_RTTI_INLINE(StillView, OpenGl_View)
 public:
  using OpenGl_View::OpenGl_View;
  ~StillView() override;

  /// Whether what lies over the picture may be drawn without smooth edges; the piece has them
  /// still.
  void setHasty(bool hasty) { hasty_ = hasty; }

  /// While it is pinned, the picture of the piece is not taken for spoilt.
  void setPinned(bool pinned) { pinned_ = pinned; }

  void Invalidate() override {
    if (!pinned_) OpenGl_View::Invalidate();
  }
  void ReleaseGlResources(const Handle(OpenGl_Context) & context) override;
  void Redraw() override;
  void RedrawImmediate() override;

 private:
  /// Makes or keeps the still picture; false where there is nothing to gain by it, or no room.
  bool holdStill();
  void stands();
  void letGo(OpenGl_Context* context);

  Handle(OpenGl_FrameBuffer) still_ = new OpenGl_FrameBuffer;  ///< of the piece
  Handle(OpenGl_FrameBuffer) over_ = new OpenGl_FrameBuffer;   ///< with what lies over it
  bool hasty_ = false;
  bool pinned_ = false;
  bool isOld_ = true;  ///< the piece was drawn anew since
};

/// The library's driver, whose views are still ones.
class StillDriver : public OpenGl_GraphicDriver {
  DEFINE_STANDARD_RTTI_INLINE(StillDriver, OpenGl_GraphicDriver)
 public:
  using OpenGl_GraphicDriver::OpenGl_GraphicDriver;
  Handle(Graphic3d_CView) CreateView(const Handle(Graphic3d_StructureManager) & manager) override;
};

}  // namespace dryfit::viewer

#pragma once

#include <AIS_ColoredShape.hxx>
#include <AIS_InteractiveContext.hxx>
#include <Bnd_Box.hxx>
#include <Prs3d_LineAspect.hxx>
#include <QColor>
#include <V3d_View.hxx>
#include <V3d_Viewer.hxx>
#include <memory>
#include <vector>

#include "joinery/piece/finding.h"
#include "viewer/view/assembled.h"
#include "viewer/view/eye.h"
#include "viewer/view/grain_look.h"
#include "viewer/view/place_lights.h"

namespace dryfit::viewer {

/// Samples a pixel for smooth edges.
inline constexpr int kEdgeSamples = 4;

/// What the view shows: the parts as wood, what is chosen, and the place of a finding. Knows no
/// window, so the same scene serves the screen and a picture file.
class Scene {
 public:
  Scene();

  /// A new view on the scene, with our background and light, not yet in a window.
  [[nodiscard]] Handle(V3d_View) makeView() const;
  /// Background of a view, by light or dark as the window is.
  static void dressView(const Handle(V3d_View) & view);
  [[nodiscard]] const Handle(AIS_InteractiveContext) & context() const { return context_; }

  /// Shows the parts; those that did not change are left alone.
  void show(std::shared_ptr<const Assembled> assembled);
  void clear();
  void choose(const std::vector<joinery::PartId>& parts);
  [[nodiscard]] std::vector<joinery::PartId> chosen() const;
  /// The pointer is at that pixel of a view, or nowhere; lights nothing by itself.
  void pointTo(const Handle(V3d_View) & view, int x, int y);
  void pointToNothing();
  /// Lights the part under the pointer as a whole, or lets it go dark.
  void lightPointed(bool whole);
  /// The part under the pointer.
  [[nodiscard]] std::optional<joinery::PartId> pointedAt() const;
  /// Brings out the finding's parts and its place; the rest turns to glass. Null shows all again.
  void bringOut(const joinery::Finding* finding);

  /// Shows the figure of the wood on all faces, or its colour alone.
  void showGrain(bool shown);

  /// Takes these parts out of sight, and shows all others; they are neither seen nor pointed at.
  void hide(const std::vector<joinery::PartId>& parts);
  [[nodiscard]] std::vector<joinery::PartId> hidden() const;

  /// Stands parts so far off their places; parts beyond the list are at theirs.
  void standOff(std::vector<kernel::Vec3> offsets);
  /// Lets these parts be seen through, and no others.
  void seeThrough(const std::vector<joinery::PartId>& parts);

  /// Box round all parts as they stand; void when there are none.
  [[nodiscard]] const Bnd_Box& bounds() const { return bounds_; }
  /// Null shape where there is no such part.
  [[nodiscard]] TopoDS_Shape shapeOf(joinery::PartId part) const;
  /// What is shown; null where nothing is.
  [[nodiscard]] std::shared_ptr<const Assembled> shown() const { return assembled_; }
  [[nodiscard]] PlaceLights& lights() { return *lights_; }
  [[nodiscard]] std::size_t partCount() const { return parts_.size(); }

 private:
  [[nodiscard]] Bnd_Box boxRound() const;
  /// What a part's colours depend on beside its shape.
  struct Dress {
    QColor wood;
    std::vector<TopoDS_Shape> endFaces;
    GrainPictures::Pair figure;
    gp_Pnt2d origin;  ///< of the figure
    bool operator==(const Dress& other) const;
  };
  [[nodiscard]] Dress dressOf(std::size_t index);
  void dressPart(std::size_t index);
  void setGlass(std::size_t index, bool glass);
  /// Glass is what a finding sets aside, and what is to be seen through.
  void applyGlass();
  [[nodiscard]] kernel::Vec3 offsetOf(std::size_t index) const;
  [[nodiscard]] gp_Trsf placeOf(std::size_t index) const;
  void outlineChosen();
  void applyHidden();
  void showMarker(const kernel::Box3& box, joinery::Severity severity);

  Handle(V3d_Viewer) viewer_;
  Handle(AIS_InteractiveContext) context_;
  std::optional<PlaceLights> lights_;
  GrainPictures figures_;
  bool grain_ = true;
  std::shared_ptr<const Assembled> assembled_;
  Bnd_Box bounds_;                               // round all parts
  std::vector<Handle(AIS_ColoredShape)> parts_;  // index = PartId
  std::vector<Handle(Prs3d_LineAspect)> edges_;  // by part; its edge lines
  std::vector<Dress> dresses_;                   // by part; as it is shown
  std::vector<bool> glass_;                      // by part
  std::vector<bool> aside_;                      // by part; of a finding that is brought out
  std::vector<bool> seeThrough_;                 // by part
  std::vector<kernel::Vec3> offsets_;            // by part; from its place
  std::vector<bool> hidden_;                     // by part
  std::vector<Handle(AIS_InteractiveObject)> marker_;
  std::vector<Handle(AIS_InteractiveObject)> outlines_;  // of chosen parts, through all others
};

/// Draws what lies over the picture of the piece; in haste without smooth edges of its own.
void drawOver(const Handle(V3d_View) & view, bool hasty);

}  // namespace dryfit::viewer

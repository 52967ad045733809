#pragma once

#include <AIS_InteractiveContext.hxx>
#include <AIS_Shape.hxx>
#include <optional>
#include <vector>

#include "joinery/piece/place_on_part.h"
#include "viewer/view/assembled.h"

namespace dryfit::viewer {

/// Faces, edges and corners lit in the view, through all that stands before them; and the ghost of
/// a part to come. All of it lies over the picture of the piece, which is not drawn anew for it.
class PlaceLights {
 public:
  explicit PlaceLights(Handle(AIS_InteractiveContext) context) : context_(std::move(context)) {}

  /// Lights what is pointed at and what is taken; the rest goes dark.
  void show(const joinery::Piece& piece, const std::optional<joinery::PlaceOnPart>& pointed,
            const std::vector<joinery::PlaceOnPart>& taken);
  /// Lights a part, where nothing stands before it; a null shape lets it go dark.
  void showPart(const TopoDS_Shape& part);
  /// A see-through box; none takes it away.
  void showGhost(const std::optional<kernel::Box3>& box);
  /// Lights the faces that a joint has made on its mates; none lets them go dark. Returns how many.
  int showJoint(const Assembled& assembled, std::optional<joinery::JointId> joint);
  /// Lights and ghost go.
  void clear();

 private:
  using Lit = std::vector<Handle(AIS_InteractiveObject)>;
  void put(Lit& lit, const joinery::Piece& piece, const joinery::PlaceOnPart& place, bool taken);
  void takeAway(Lit& lit);

  Handle(AIS_InteractiveContext) context_;
  Lit part_, pointed_, taken_, joint_;
  Handle(AIS_Shape) ghost_;
};

}  // namespace dryfit::viewer

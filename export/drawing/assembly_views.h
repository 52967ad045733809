#pragma once

#include <string>
#include <vector>

#include "export/drawing/projection.h"
#include "joinery/piece/part_list.h"
#include "joinery/piece/piece.h"
#include "kernel/solid.h"

namespace dryfit::exporting {

/// A place at which the balloon of a part may point, in the piece: on its wood.
struct PointerEnd {
  kernel::Point3 at;
  double off = 0;  ///< from the middle of the part, as a share of its size in the view
};

/// Where the balloon of a part group points.
struct PartPointer {
  int number = 0;        ///< of the group
  joinery::PartId part;  ///< the one pointed at
  bool hidden = false;   ///< other parts lie before it in every view
  std::vector<PointerEnd> ends;
};

/// A view of the whole piece, or of what is left when parts that lie before others are taken away.
struct AssemblyView {
  std::string name;  ///< "Front", "Inside from the front"
  kernel::Viewpoint eye;
  std::vector<int> without;           ///< numbers of the groups taken away, ascending
  std::vector<PartPointer> pointers;  ///< of the groups best seen here
  [[nodiscard]] bool opened() const { return !without.empty(); }
};

/// Front, top and left view, and as many more views as it takes until every group is seen: from
/// other sides, or with the parts that lie before it taken away. Each group is pointed at once, on
/// its own finished wood, where nothing lies before it. A group that no such view shows is pointed
/// at in the front view, through what hides it. `solids` are the finished parts, each in its own
/// frame. Error: libraryFailure.
[[nodiscard]] Result<std::vector<AssemblyView>> assemblyViews(
    const joinery::Piece& piece, const std::vector<kernel::Solid>& solids,
    const std::vector<joinery::PartGroup>& groups);

/// The eye of an isometric view (ISO 5456-3): from the front, the right and above.
[[nodiscard]] kernel::Viewpoint isometricEye();

/// "3, 7–9, 12"
[[nodiscard]] std::string numberRanges(const std::vector<int>& ascending);

}  // namespace dryfit::exporting

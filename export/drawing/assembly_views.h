#pragma once

#include <optional>
#include <vector>

#include "export/drawing/projection.h"
#include "joinery/piece/part_list.h"
#include "joinery/piece/piece.h"

namespace dryfit::exporting {

/// Where the balloon of a part group points.
struct PartPointer {
  int number = 0;                  ///< of the group
  std::size_t view = 0;            ///< 0 front, 1 top, 2 left
  bool hidden = false;             ///< other parts lie before it in all views
  std::vector<kernel::Point3> at;  ///< places on the part, in the piece, best first
};

/// The three eyes of an assembly: front, top, left.
[[nodiscard]] const std::array<kernel::Viewpoint, 3>& assemblyEyes();

/// For each group places where one of its parts can be seen, judged by the boxes round the parts.
/// A part that nothing shows is pointed at through what hides it.
[[nodiscard]] std::vector<PartPointer> partPointers(const joinery::Piece& piece,
                                                    const std::vector<joinery::PartGroup>& groups);

}  // namespace dryfit::exporting

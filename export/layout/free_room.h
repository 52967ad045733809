#pragma once

#include <optional>
#include <vector>

#include "export/drawing/sheet.h"

namespace dryfit::exporting {

/// Boxes on paper that no further text may touch.
class FreeRoom {
 public:
  void take(const Box2& box) { taken_.push_back(box); }
  [[nodiscard]] bool isFree(const Box2& box) const;
  /// The middle of a free box of `width` by `height` inside `room`, nearest to `wanted` on a grid
  /// of 1 mm; none where there is no room.
  [[nodiscard]] std::optional<Point2> spot(const Box2& room, double width, double height,
                                           Point2 wanted) const;

 private:
  std::vector<Box2> taken_;
};

/// Lines under 45 degrees across `zone`, left out inside `hole` (may be empty).
void addHatching(Ink& ink, const Box2& zone, const Box2& hole);

}  // namespace dryfit::exporting

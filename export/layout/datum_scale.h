#pragma once

#include <optional>
#include <string>
#include <vector>

#include "export/drawing/gutter.h"
#include "export/drawing/sheet.h"

namespace dryfit::exporting {

/// One value of a datum scale.
struct DatumMark {
  double along = 0;  ///< paper, x at the top and bottom, y at the left and right
  std::string text;
};

/// Running dimensions (ISO 129-1, superimposed running dimensioning) on one side of a view, closer
/// set than those of a part's drawing. `start`: from the side to the dimension line, mm.
struct DatumScale {
  Side side = Side::bottom;
  Box2 view;
  double start = 5;
  std::optional<double> origin;  ///< where the datum lies; none where it is beyond the view
  std::vector<DatumMark> marks;

  void draw(Ink& ink) const;
};

}  // namespace dryfit::exporting

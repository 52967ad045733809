#pragma once

#include <string>
#include <vector>

#include "export/drawing/sheet.h"

namespace dryfit::test {

/// All texts of a sheet, in the order in which they are drawn.
[[nodiscard]] std::vector<exporting::Text> textsOf(const exporting::Sheet& sheet);
[[nodiscard]] bool hasText(const exporting::Sheet& sheet, const std::string& wanted);

/// What every sheet must keep to: no two texts overlap, all ink is inside the frame, lettering is
/// legible. Fails the test where one does not.
void expectGoodSheet(const exporting::Sheet& sheet);

/// A balloon as it is found on a sheet.
struct FoundBalloon {
  std::string item;
  exporting::Point2 centre, end;  ///< `end`: of its leader
};
[[nodiscard]] std::vector<FoundBalloon> balloonsOf(const exporting::Sheet& sheet);

/// What balloons must keep to: none over another, over a text or over a dimension line; no leader
/// over another leader, over another balloon, over a text, or ending near another's end.
void expectClearBalloons(const exporting::Sheet& sheet);

/// The largest upright rectangle without ink, as a share of the drawing space, counted in squares
/// of 10 mm.
[[nodiscard]] double emptyShare(const exporting::Sheet& sheet);

}  // namespace dryfit::test

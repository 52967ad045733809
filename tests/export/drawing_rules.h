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

}  // namespace dryfit::test

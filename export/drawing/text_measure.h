#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "export/drawing/sheet.h"

namespace dryfit::exporting {

/// The one family all drawings are lettered in.
inline constexpr std::string_view kFontFamily = "DejaVu Sans Condensed";

/// Size of the font's em, in mm, whose capital letters are `capitalHeight` mm high.
[[nodiscard]] double emSize(double capitalHeight);

/// Advance width of `text` in mm when its capitals are `height` mm high.
[[nodiscard]] double textWidth(std::string_view text, double height,
                               TextStyle style = TextStyle::regular);

/// Upright box round a line of text. It reaches from below the descenders to the top of the
/// capitals and is exact for rotations by a multiple of 90 degrees.
[[nodiscard]] Box2 textBox(const Text& text);

/// `text` broken at blanks into lines no wider than `width` mm. A word that is wider than that is
/// broken between letters. Never empty.
[[nodiscard]] std::vector<std::string> wrapText(std::string_view text, double width, double height,
                                                TextStyle style = TextStyle::regular);

}  // namespace dryfit::exporting

#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "joinery/base/unit.h"
#include "joinery/piece/piece.h"
#include "joinery/piece/true_lengths.h"

namespace dryfit::exporting {

/// What a rule reads along a part whose shoulders slant, as its maker holds it: by face side and
/// face edge.
struct SlantNote {
  /// From shoulder to shoulder: [face side, behind it][face edge, opposite edge].
  std::array<std::array<Length, 2>, 2> along;
  std::array<joinery::EndSlope, 2> ends;
  std::array<std::string, 2> endNames;  ///< "bottom end", "top end"
  bool faceEdgeFar = false, faceSideFar = false;
};

/// "14.04°": two decimals at most, without a sign.
[[nodiscard]] std::string degreesText(double degrees);

/// None where both ends are square.
[[nodiscard]] std::optional<SlantNote> slantNote(const joinery::PlacedPart& part);

/// One or two sentences without full stops: "shoulder to shoulder 344.6 at the face edge, 327.8 at
/// the opposite edge", "bottom end 6.5° off square on the face side, longer at the
/// opposite edge". Sizes in `unit`, without its
/// name.
[[nodiscard]] std::vector<std::string> slantTexts(const SlantNote& note, joinery::Unit unit);

}  // namespace dryfit::exporting

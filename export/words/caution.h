#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "joinery/piece/piece.h"

namespace dryfit::exporting {

/// What can hurt someone.
enum class Hazard { machines, tipOver, lid, oilyRags };

/// One short warning for the bench, and where it comes from.
struct Caution {
  Hazard hazard;
  std::string_view text;
  std::string_view source;
};

/// The whole table, in the order of Hazard.
[[nodiscard]] std::span<const Caution> cautions();
[[nodiscard]] const Caution& caution(Hazard hazard);

/// Height of a piece, mm, from which it is to be fixed against tipping over.
inline constexpr double kTipOverHeight = 686;

/// The warnings that suit this piece: machines always, tipping over where it stands
/// `kTipOverHeight` or taller, lid stays where a part is called a lid, rags always.
[[nodiscard]] std::vector<Caution> cautionsFor(const joinery::Piece& piece);

/// The same as text under the head "Safety:", one line a warning.
[[nodiscard]] std::string safetyText(const joinery::Piece& piece);

}  // namespace dryfit::exporting

#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "joinery/piece/piece.h"

namespace dryfit::exporting {

/// What can hurt someone.
enum class Hazard {
  machines,
  roughBoards,  ///< twisted, cupped or waney, against a fence
  smallParts,   ///< too short or thin for jointer and planer
  tipOver,
  wallFixing,
  fallingLid,
  closedBox,  ///< a child inside it
  oilyRags,
  clamps,
};

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
/// A piece that is less than so many times as high as it is wide or deep, like a table, stands by
/// itself (common practice, from memory).
inline constexpr double kTipOverSlenderness = 1.2;
/// Wood shorter or thinner than this, mm, is not for jointer and planer: their manuals and shop
/// rules ask for 8 to 12 in and 1/4 to 1/2 in; the table of cautions names them.
inline constexpr double kShortestMachined = 300;
inline constexpr double kThinnestMachined = 6;
/// From this inside volume, mm³, and this size each way, mm, a box may hold a child.
inline constexpr double kChildRoom = 30e6;
inline constexpr double kChildWidth = 150;

/// True where jointer and planer should not work it. Lengths in mm, `length` along the grain;
/// sheet goods are bought in their thickness, so only their length counts.
[[nodiscard]] bool isSmall(double length, double thickness, bool timber);

/// The warnings that suit this piece, in the order of Hazard. Always: machines and oily rags. Rough
/// boards: where a part is solid timber. Small parts: where one is by `isSmall`. Tipping over: from
/// `kTipOverHeight` up, where it is `kTipOverSlenderness` times as high as it is wide or deep. Wall
/// fixing: where the name of the piece, or the name or note of its hardware, has a word such as
/// "wall" or "hang", or a part is called by "wall". Falling lid: where a part is called a lid;
/// closed box: where such a piece is also larger, over all, than a child needs. Never clamps: they
/// are for a frame that is pulled square.
[[nodiscard]] std::vector<Caution> cautionsFor(const joinery::Piece& piece);

/// The same as text under the head "Safety:", one line a warning.
[[nodiscard]] std::string safetyText(const joinery::Piece& piece);

}  // namespace dryfit::exporting

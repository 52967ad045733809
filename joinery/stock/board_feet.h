#pragma once

namespace dryfit::joinery {

/// One board foot, mm³: 12 x 12 x 1 in (2359.737 cm³).
inline constexpr double kBoardFoot = 144 * 25.4 * 25.4 * 25.4;

/// Board feet by volume, a thickness under 1 in counted as 1 in. Sizes in mm.
[[nodiscard]] double boardFeet(double length, double width, double thickness);

/// Board feet of one rough board as the trade tallies it: length in whole feet times width in
/// inches, over 12, rounded to a whole number (the surface measure), then times the nominal
/// thickness in quarters of an inch, 4/4 at least. Sizes in mm.
[[nodiscard]] double tallyBoardFeet(double length, double width, double thickness);

/// The same for a purchase whose boards are not known yet: its whole surface, mm², rounded up to
/// whole square feet.
[[nodiscard]] double tallyBoardFeet(double surface, double thickness);

}  // namespace dryfit::joinery

#pragma once

#include <numbers>

/// How fine the whole program measures, from the kernel to the drawings: every number below which
/// two things count as one, with the reason for its size. Rules of the trade are not here.
namespace dryfit::kernel {

// --- Lengths, mm -----------------------------------------------------------------------------

/// The one distance, in mm, below which two faces count as touching: ten times finer than paper is
/// thin, a hundred times coarser than the rounding of `double` at furniture size.
inline constexpr double kContact = 1e-4;

/// Largest size of anything in the workshop, in mm. Greater numbers are taken for typing errors.
inline constexpr double kLargest = 100'000;

/// Coordinates nearer than this, in mm, are one coordinate. A hundredth of `kContact`, and so far
/// below the smallest tool a recipe may hold; ten times the geometry library's own confusion.
inline constexpr double kSnap = 1e-6;

/// Edges of two parts this near, in mm, make the parts alike: as fine as coordinates are told
/// apart.
inline constexpr double kAlike = 1e-6;

/// A point this near, in mm, to the line between its neighbours is no corner of an outline:
/// rounding at furniture size. A real bend, however slight, is the maker's own.
inline constexpr double kStraight = 1e-9;

/// A hole keeps at least this far, mm, from edges, other holes and the faces it does not open, to
/// be bored without the library: well clear of its confusion.
inline constexpr double kBoreClear = 1e-3;

/// Play smaller than this, in mm, is rounding, not a fit: no wood is worked so fine.
inline constexpr double kPlayRounding = 1e-3;

/// A number of the model that changes by less than this, in mm, does not change: finer than a file
/// keeps.
inline constexpr double kLeastChange = 1e-6;

/// A number that is looked for is found when it moves by less than this, in mm: rounding.
inline constexpr double kSettled = 1e-9;

/// Blanks this near, in mm, are pulled together by clamps and glue: their faces need no finish.
inline constexpr double kGluedNear = 0.1;

/// A sawn thickness this near, in mm, to one that is sold bears its name: finer than a saw.
inline constexpr double kSameSold = 0.01;

// --- Volumes ---------------------------------------------------------------------------------

/// Volume in mm³ below which a shared volume counts as touching, not as interference: a 1 m × 1 m
/// contact at a tenth of `kContact` deep would be 10 mm³; a sliver this small cannot be sawn.
inline constexpr double kSliverVolume = 1e-2;

/// Volumes this close, relative to the greater, are the same: rounding, not wood.
inline constexpr double kSameVolume = 1e-11;

// --- Directions ------------------------------------------------------------------------------

/// Faces and axes are parallel where the sine between them is below this: over a metre they part by
/// `kSnap`.
inline constexpr double kParallel = 1e-9;

/// How far the length of a direction may be from 1, or two axes from a right angle, as a cosine:
/// what a few turns in `double` leave, and no more.
inline constexpr double kUnit = 1e-9;

/// How far a direction may lean to either side and still run along an axis of its frame: the
/// rounding of one turn. Square work has no more, so that a slant meant by its maker stays one.
inline constexpr double kAlongAxis = 1e-12;

/// Lengths cross, and a cut slopes, where the sine between them is above this: below it they part
/// by less than a thousandth of a millimetre over a metre, and where they meet is left to rounding.
inline constexpr double kCrossing = 1e-6;

/// The cosine between faces that still look at each other: up to 45° out of parallel, since beyond
/// it another face of the part is nearer to parallel.
inline constexpr double kFacing = std::numbers::sqrt2 / 2;

/// A face looks down where its outward normal has at least this share of the vertical: up to 60°
/// out of level.
inline constexpr double kLooksDown = 0.5;

/// Turns this near, in radians, are the same: rounding.
inline constexpr double kSameTurn = 1e-12;

// --- Plain numbers ---------------------------------------------------------------------------

/// What rounding may add to or take from a count, a share or a cosine before it is compared or made
/// whole.
inline constexpr double kRounding = 1e-9;

/// The same where it follows from lengths that were rounded to a unit's steps first.
inline constexpr double kStepRounding = 1e-6;

/// What is left over, relative to the whole, when lengths or volumes that should be equal are
/// subtracted.
inline constexpr double kRelative = 1e-6;

// --- Drawings, mm on paper where not said otherwise -------------------------------------------

/// Sizes of wood nearer than this, in mm, are drawn and stated as equal: the finest a drawing says.
inline constexpr double kDrawnAlike = 0.01;

/// Dimensions whose ends lie this near are the same dimension: finer than any printer.
inline constexpr double kSameSpan = 1e-3;

/// What rounding may do to places on a sheet before they count as apart.
inline constexpr double kOnPaper = 1e-6;

/// Corners this near are one corner of a line.
inline constexpr double kSameCorner = 1e-7;

}  // namespace dryfit::kernel

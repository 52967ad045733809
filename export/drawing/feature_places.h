#pragma once

#include <array>
#include <optional>

#include "joinery/piece/piece.h"

namespace dryfit::exporting {

/// Where the places along a part are set out from: the near shoulder (or end) at the edge where
/// face side and face edge meet. Along the part from its blank's near end, mm; 0 where it is
/// square.
[[nodiscard]] double datumOf(const joinery::PlacedPart& part);

/// True for the cut that fits an end to a slanting mate. It has no row: the lengths of the edges
/// and the note of the angle tell it.
[[nodiscard]] bool isSlantedEnd(const joinery::Feature& feature);

/// The longest groove, housing or rebate with which this cut is made, the two being in one line and
/// alike in section, as the grooves of two panels with that of the muntin between: what is left to
/// know of the cut is its place. None where it is a cut of its own. Of equal ones it is the first.
[[nodiscard]] std::optional<std::size_t> cutWith(const joinery::PlacedPart& part,
                                                 const joinery::Feature& feature);

/// At how many ends a groove, housing or rebate ends in the wood: 0 to 2. What runs on into another
/// cut as deep does not end there. 0 of what runs along no face.
[[nodiscard]] int stoppedEnds(const joinery::PlacedPart& part, const joinery::Feature& feature);

/// The feature's finished size, and where a cut runs on past a shoulder into what stands out there,
/// as far as it does, in the part's frame.
[[nodiscard]] kernel::Box3 workedExtent(const joinery::PlacedPart& part,
                                        const joinery::Feature& feature);

/// True where the feature reaches both ends of the wood along an axis. A cut may stop at a
/// shoulder, or go through what stands out beyond it; one that ends within that wood does not reach
/// the end.
[[nodiscard]] bool reachesBothEnds(const joinery::PlacedPart& part, const joinery::Feature& feature,
                                   int axis);
/// True where the feature is a round hole or dowel.
[[nodiscard]] bool isRound(const joinery::Feature& feature);

/// How a cut out of square lies on the face by which it enters.
struct Slope {
  double width = 0;    ///< across its run, mm
  double length = 0;   ///< along its run, mm; beyond the edges where it runs out there
  double degrees = 0;  ///< between its run and square across the part
  int across = 1;      ///< the part's axis across the face
  double middle = 0;   ///< where its middle line crosses across = 0, along the part
  double lean = 0;     ///< mm along the part for each mm across

  /// Where its two long sides cross a line along the part, the lesser first.
  [[nodiscard]] std::array<double, 2> sidesAt(double across) const;
};
/// None for a cut that is square, round or not a plain block, or that is not sloped within its
/// face.
[[nodiscard]] std::optional<Slope> slopeOf(const joinery::Feature& feature);

}  // namespace dryfit::exporting

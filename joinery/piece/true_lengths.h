#pragma once

#include <array>

#include "joinery/piece/piece.h"

namespace dryfit::joinery {

/// One of the four long edges of a part, from shoulder to shoulder: coordinates along its length.
struct LongEdge {
  double lo = 0, hi = 0;
  [[nodiscard]] double length() const { return hi - lo; }
  friend bool operator==(const LongEdge&, const LongEdge&) = default;
};

/// How far an end is out of square, degrees: seen on the face (across the width) and on the edge
/// (across the thickness). 0 where it is square; over 0 where the far side of that width or
/// thickness is the longer one.
struct EndSlope {
  double acrossWidth = 0, acrossThickness = 0;
  [[nodiscard]] bool isSquare() const { return acrossWidth == 0 && acrossThickness == 0; }
};

/// What a rule laid along a part reads between its shoulders, where its ends may be fitted to faces
/// that slant. Tapers are left out of account: the edges are those of the straight blank.
struct ShoulderLines {
  std::array<std::array<LongEdge, 2>, 2> edges;  ///< [far in width][far in thickness]
  std::array<EndSlope, 2> ends;                  ///< near and far end

  [[nodiscard]] const LongEdge& at(bool farWidth, bool farThickness) const {
    return edges[farWidth ? 1 : 0][farThickness ? 1 : 0];
  }
  [[nodiscard]] double longest() const;
  [[nodiscard]] double shortest() const;
  /// True where both ends are square, so that all four edges are as long as the blank.
  [[nodiscard]] bool isSquare() const { return ends[0].isSquare() && ends[1].isSquare(); }
};

[[nodiscard]] ShoulderLines shoulderLines(const PlacedPart& part);

}  // namespace dryfit::joinery

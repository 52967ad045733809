#pragma once

#include <string>
#include <vector>

#include "export/drawing/sheet.h"

namespace dryfit::exporting {

/// A place at which a leader may end, paper mm; `cost` says how much longer a leader to a place
/// without cost may be.
struct LeaderEnd {
  Point2 at;
  double cost = 0;
};

/// What a balloon is to point at.
struct RingItem {
  std::string item;
  std::vector<LeaderEnd> ends;  ///< at least one
  bool behind = false;          ///< lies behind others: a dashed leader
};

/// A balloon in its place.
struct RingBalloon {
  std::string item;
  Point2 centre, end;
  bool behind = false;
};

/// How far outside the outline the middles of the balloons stand, mm.
inline constexpr double kRingAway = 8.6;
/// What the ring takes of the paper round the outline, mm.
inline constexpr double kRingDepth = 13;

/// Balloons on the four sides of a view: as near as may be to what they point at, in straight rows,
/// no leader over another, over a balloon, or so near to another's end that it could be meant.
/// Leaders of least total length do not cross; that is what is looked for, item by item and pair by
/// pair, so that the same items give the same ring. Where the sides are too short for all of them
/// the upper row runs over.
[[nodiscard]] std::vector<RingBalloon> ringOf(const Box2& outline,
                                              const std::vector<RingItem>& items);

/// How many balloons the sides of an outline hold.
[[nodiscard]] std::size_t ringRoom(const Box2& outline);

/// True where two segments have a point in common.
[[nodiscard]] bool segmentsCross(Point2 a, Point2 b, Point2 c, Point2 d);
/// From a point to the nearest point of a segment.
[[nodiscard]] double distanceToSegment(Point2 p, Point2 a, Point2 b);

}  // namespace dryfit::exporting

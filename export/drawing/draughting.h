#pragma once

#include <string>

#include "export/drawing/sheet.h"

namespace dryfit::exporting {

/// Heights of lettering after ISO 3098, mm.
inline constexpr double kTextHeight = 3.5;
inline constexpr double kSmallTextHeight = 2.5;
/// Radius of the circle round an item letter or number, mm.
inline constexpr double kBalloonRadius = 3.6;

/// A straight narrow line on the dimension layer.
void addLine(Ink& ink, Point2 a, Point2 b, LineClass line = LineClass::dimension,
             Layer layer = Layer::dimensions);

/// A filled arrowhead, 3 mm long and 1 mm wide, whose tip is at `tip` and which points along `dir`
/// (length 1).
void addArrowhead(Ink& ink, Point2 tip, Point2 dir);

/// An oblique stroke across the end of a dimension line: the terminator where arrows find no room.
void addObliqueStroke(Ink& ink, Point2 at);

/// A dot that ends a leader inside an outline.
void addDot(Ink& ink, Point2 at, double radius = 0.5);

/// A circle with an item letter or number, and the leader from `anchor` where it is outside.
void addBalloon(Ink& ink, Point2 centre, const std::string& item, Point2 anchor,
                LineClass leader = LineClass::dimension);

/// The mark written on a face side: a loop whose tail runs up to the face edge. `size` is its
/// height; `at` the end of the tail.
void addFaceSideMark(Ink& ink, Point2 at, double size);

/// The mark written on a face edge: an open wedge, with its point at `at` toward the face side
/// below it.
void addFaceEdgeMark(Ink& ink, Point2 at, double size);

/// The direction of the grain: a line with a half head at each end.
void addGrainArrow(Ink& ink, Point2 a, Point2 b);

/// The symbol for first angle projection (ISO 5456-2): cone seen from the side at the left, from
/// its narrow end at the right. `at` is its lower left corner; it is 2.2 × `height` wide.
void addFirstAngleSymbol(Ink& ink, Point2 at, double height);

}  // namespace dryfit::exporting

#include "export/drawing/draughting.h"

#include <cmath>
#include <numbers>

namespace dryfit::exporting {
namespace {

constexpr double kArrowLength = 3;
constexpr double kArrowHalfWidth = 0.5;

std::vector<Point2> circlePoints(Point2 centre, double radius, int count) {
  std::vector<Point2> points;
  for (int i = 0; i < count; ++i) {
    const double a = 2 * std::numbers::pi * i / count;
    points.push_back({centre.x + radius * std::cos(a), centre.y + radius * std::sin(a)});
  }
  return points;
}

}  // namespace

void addLine(Ink& ink, Point2 a, Point2 b, LineClass line, Layer layer) {
  ink.add(Stroke{{a, b}, false, line, layer});
}

void addArrowhead(Ink& ink, Point2 tip, Point2 dir) {
  const Point2 root{tip.x - dir.x * kArrowLength, tip.y - dir.y * kArrowLength};
  const Point2 side{-dir.y * kArrowHalfWidth, dir.x * kArrowHalfWidth};
  ink.add(Fill{{tip, {root.x + side.x, root.y + side.y}, {root.x - side.x, root.y - side.y}},
               Layer::dimensions});
}

void addObliqueStroke(Ink& ink, Point2 at) {
  constexpr double kReach = 0.9;
  ink.add(Stroke{{{at.x - kReach, at.y - kReach}, {at.x + kReach, at.y + kReach}},
                 false,
                 LineClass::mark,
                 Layer::dimensions});
}

void addDot(Ink& ink, Point2 at, double radius) {
  ink.add(Fill{circlePoints(at, radius, 12), Layer::dimensions});
}

void addBalloon(Ink& ink, Point2 centre, const std::string& item, Point2 anchor, LineClass leader) {
  ink.add(Arc{centre, kBalloonRadius, 0, 360, LineClass::dimension, Layer::dimensions});
  ink.add(Text{{centre.x, centre.y - kTextHeight / 2},
               item,
               item.size() > 2 ? kSmallTextHeight : kTextHeight,
               TextAnchor::middle,
               0,
               TextStyle::bold,
               Layer::text});
  const double dx = anchor.x - centre.x;
  const double dy = anchor.y - centre.y;
  const double away = std::hypot(dx, dy);
  if (away <= kBalloonRadius) return;
  const double k = kBalloonRadius / away;
  addLine(ink, {centre.x + dx * k, centre.y + dy * k}, anchor, leader);
  addDot(ink, anchor);
}

void addFaceSideMark(Ink& ink, Point2 at, double size) {
  // The cubic (t³ - kt, t²) crosses itself once: a loop with two tails, one of them cut short. The
  // long tail ends on the face edge.
  constexpr double kLoop = 0.6;
  constexpr double kWide = 1.5;
  constexpr int kSteps = 48;
  const auto curve = [&](double t) { return Point2{kWide * (t * t * t - kLoop * t), t * t}; };
  const Point2 end = curve(1);
  Stroke stroke{{}, false, LineClass::mark, Layer::outline};
  for (int i = 0; i <= kSteps; ++i) {
    const Point2 p = curve(-0.85 + 1.85 * i / kSteps);
    stroke.points.push_back({at.x + size * (p.x - end.x), at.y + size * (p.y - end.y)});
  }
  ink.add(std::move(stroke));
}

void addFaceEdgeMark(Ink& ink, Point2 at, double size) {
  const double half = 0.45 * size;
  ink.add(Stroke{{{at.x - half, at.y + size}, at, {at.x + half, at.y + size}},
                 false,
                 LineClass::mark,
                 Layer::outline});
}

void addGrainArrow(Ink& ink, Point2 a, Point2 b) {
  const double length = std::hypot(b.x - a.x, b.y - a.y);
  const Point2 dir{(b.x - a.x) / length, (b.y - a.y) / length};
  const Point2 side{-dir.y, dir.x};
  constexpr double kBack = 3.5;
  constexpr double kOut = 1.2;
  // One stroke: half head, line, half head on the other side.
  ink.add(Stroke{{{a.x + dir.x * kBack - side.x * kOut, a.y + dir.y * kBack - side.y * kOut},
                  a,
                  b,
                  {b.x - dir.x * kBack + side.x * kOut, b.y - dir.y * kBack + side.y * kOut}},
                 false,
                 LineClass::mark,
                 Layer::outline});
}

void addFirstAngleSymbol(Ink& ink, Point2 at, double height) {
  const double r = height / 2;
  const double small = r / 2;
  const double length = height;
  const Point2 left{at.x, at.y + r};
  const Point2 right{at.x + length, at.y + r};
  // First angle: the cone's narrow end at the left; what is seen from there lies at the right.
  ink.add(Stroke{{{left.x, left.y - small},
                  {right.x, right.y - r},
                  {right.x, right.y + r},
                  {left.x, left.y + small}},
                 true,
                 LineClass::mark,
                 Layer::titleBlock});
  const Point2 centre{at.x + length * 1.2 + r, at.y + r};
  ink.add(Arc{centre, r, 0, 360, LineClass::mark, Layer::titleBlock});
  ink.add(Arc{centre, small, 0, 360, LineClass::mark, Layer::titleBlock});
  addLine(ink, {left.x - 1, left.y}, {right.x + 1, right.y}, LineClass::centre, Layer::titleBlock);
  addLine(ink, {centre.x - r - 1, centre.y}, {centre.x + r + 1, centre.y}, LineClass::centre,
          Layer::titleBlock);
  addLine(ink, {centre.x, centre.y - r - 1}, {centre.x, centre.y + r + 1}, LineClass::centre,
          Layer::titleBlock);
}

}  // namespace dryfit::exporting

#include "kernel/src/view_lines.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "kernel/src/intervals.h"
#include "kernel/tolerance.h"

namespace dryfit::kernel {
namespace {

constexpr double kTurn = 2 * std::numbers::pi;

double between(Point2 a, Point2 b) {
  return std::hypot(b.x - a.x, b.y - a.y);
}
bool meet(Point2 a, Point2 b) {
  return between(a, b) <= kContact;
}

struct Stretches {
  std::vector<Interval> visible, hidden;

  void add(bool isVisible, Interval piece) { (isVisible ? visible : hidden).push_back(piece); }
  /// Each stretch once: visible before hidden.
  void settle(double gap) {
    visible = united(std::move(visible), gap);
    hidden = uncovered(united(std::move(hidden), gap), visible, gap);
  }
};

/// All pieces on one straight line, as stretches along it.
struct StraightGroup {
  Point2 origin, along;
  Stretches pieces;

  explicit StraightGroup(const Segment& s) : origin(s.a) {
    const double length = between(s.a, s.b);
    along = {(s.b.x - s.a.x) / length, (s.b.y - s.a.y) / length};
    // One sense for every line: to the right, or straight up.
    if (along.x < -kUnit || (along.x <= kUnit && along.y < 0)) along = {-along.x, -along.y};
  }
  [[nodiscard]] double place(Point2 p) const {
    return (p.x - origin.x) * along.x + (p.y - origin.y) * along.y;
  }
  [[nodiscard]] bool holds(Point2 p) const {
    return std::fabs((p.y - origin.y) * along.x - (p.x - origin.x) * along.y) <= kContact;
  }
  [[nodiscard]] Point2 at(double t) const {
    return {origin.x + along.x * t, origin.y + along.y * t};
  }
};

void addStraight(std::vector<Segment> segments, std::vector<ViewLine>& lines) {
  // The longest first: they tell the direction best. Ties by place keep the outcome the same.
  const auto rank = [](const Segment& s) {
    return std::tuple(-between(s.a, s.b), s.a.x, s.a.y, s.b.x, s.b.y, !s.visible);
  };
  std::sort(segments.begin(), segments.end(),
            [&](const Segment& a, const Segment& b) { return rank(a) < rank(b); });
  std::vector<StraightGroup> groups;
  for (const Segment& s : segments) {
    if (between(s.a, s.b) <= kContact) continue;
    auto group = std::find_if(groups.begin(), groups.end(),
                              [&](const StraightGroup& g) { return g.holds(s.a) && g.holds(s.b); });
    if (group == groups.end()) group = groups.insert(groups.end(), StraightGroup(s));
    const double a = group->place(s.a);
    const double b = group->place(s.b);
    group->pieces.add(s.visible, {std::min(a, b), std::max(a, b)});
  }
  for (StraightGroup& group : groups) {
    group.pieces.settle(kContact);
    const auto draw = [&](const Interval& i, bool visible) {
      lines.push_back({{group.at(i.from), group.at(i.to)}, visible});
    };
    for (const Interval& i : group.pieces.visible) draw(i, true);
    for (const Interval& i : group.pieces.hidden) draw(i, false);
  }
}

bool sameCurve(const Arc& a, const Arc& b) {
  const double tilt = std::fabs(std::remainder(a.tilt - b.tilt, std::numbers::pi));
  return meet(a.centre, b.centre) && std::fabs(a.major - b.major) <= kContact &&
         std::fabs(a.minor - b.minor) <= kContact && tilt * (a.major - a.minor) <= kContact;
}

/// Adds a turn to stretches kept within [0, 2π], cut in two where it passes the start.
void addTurn(Stretches& pieces, const Arc& arc) {
  const double from = arc.from - kTurn * std::floor(arc.from / kTurn);
  const double to = from + std::min(arc.to - arc.from, kTurn);
  pieces.add(arc.visible, {from, std::min(to, kTurn)});
  if (to > kTurn) pieces.add(arc.visible, {0, to - kTurn});
}

/// Joins the last stretch to the first where they meet at the start of the turn.
void joinAtStart(std::vector<Interval>& pieces, double gap) {
  if (pieces.size() < 2) return;
  if (pieces.front().from <= gap && pieces.back().to >= kTurn - gap) {
    pieces.back().to = kTurn + pieces.front().to;
    pieces.erase(pieces.begin());
  }
}

ViewLine drawn(const Arc& arc, const Interval& turn, bool visible) {
  // A chord over the angle s stands major·(1 - cos(s/2)) off at most; no chord over 15°.
  const double bow = std::clamp(1 - kChordError / arc.major, -1.0, 1.0);
  const double step = std::min(2 * std::acos(bow), std::numbers::pi / 12);
  const double span = turn.to - turn.from;
  const int chords = std::max(2, static_cast<int>(std::ceil(span / step - kRounding)));
  ViewLine line{{}, visible};
  for (int i = 0; i <= chords; ++i) line.points.push_back(arc.at(turn.from + span * i / chords));
  if (span >= kTurn - kSameTurn) line.points.back() = line.points.front();
  return line;
}

void addArcs(const std::vector<Arc>& arcs, std::vector<ViewLine>& lines) {
  std::vector<std::pair<Arc, Stretches>> groups;
  for (const Arc& arc : arcs) {
    auto group = std::find_if(groups.begin(), groups.end(),
                              [&](const auto& g) { return sameCurve(g.first, arc); });
    if (group == groups.end()) group = groups.insert(groups.end(), {arc, {}});
    Arc same = arc;
    // Tilts just under π and just over 0 are one direction the other way round: half a turn off.
    if (std::fabs(arc.tilt - group->first.tilt) > std::numbers::pi / 2) {
      same.from += std::numbers::pi;
      same.to += std::numbers::pi;
    }
    addTurn(group->second, same);
  }
  for (auto& [arc, pieces] : groups) {
    const double gap = kContact / arc.major;
    pieces.settle(gap);
    joinAtStart(pieces.visible, gap);
    joinAtStart(pieces.hidden, gap);
    for (const Interval& i : pieces.visible) lines.push_back(drawn(arc, i, true));
    for (const Interval& i : pieces.hidden) lines.push_back(drawn(arc, i, false));
  }
}

double distanceTo(Point2 p, const std::vector<Point2>& line) {
  double least = between(p, line.front());
  for (std::size_t i = 1; i < line.size(); ++i) {
    const Point2 a = line[i - 1];
    const Point2 d{line[i].x - a.x, line[i].y - a.y};
    const double length2 = d.x * d.x + d.y * d.y;
    const double t = length2 > 0 ? ((p.x - a.x) * d.x + (p.y - a.y) * d.y) / length2 : 0;
    const double c = std::clamp(t, 0.0, 1.0);
    least = std::min(least, between(p, {a.x + c * d.x, a.y + c * d.y}));
  }
  return least;
}

bool keepsTo(const std::vector<Point2>& a, const std::vector<Point2>& b) {
  return std::all_of(a.begin(), a.end(), [&](Point2 p) { return distanceTo(p, b) <= kChordError; });
}

/// Whether two sampled curves draw the same line, in either sense.
bool sameDrawing(const std::vector<Point2>& a, const std::vector<Point2>& b) {
  const bool ends = (meet(a.front(), b.front()) && meet(a.back(), b.back())) ||
                    (meet(a.front(), b.back()) && meet(a.back(), b.front()));
  return ends && keepsTo(a, b) && keepsTo(b, a);
}

void addOthers(const std::vector<Sampled>& curves, std::vector<ViewLine>& lines) {
  std::vector<ViewLine> kept;
  for (const bool visible : {true, false}) {
    for (const Sampled& curve : curves) {
      if (curve.visible != visible || curve.points.size() < 2) continue;
      const bool known = std::any_of(kept.begin(), kept.end(), [&](const ViewLine& line) {
        return sameDrawing(curve.points, line.points);
      });
      if (!known) kept.push_back({curve.points, visible});
    }
  }
  lines.insert(lines.end(), kept.begin(), kept.end());
}

double rounded(double mm) {
  const double r = std::round(mm * 1e9) / 1e9;
  return r == 0 ? 0 : r;  // no -0
}

/// Sampled curves may come either way; all run from their lower-left end.
void settleSense(ViewLine& line) {
  const auto key = [](Point2 p) { return std::pair(p.x, p.y); };
  if (key(line.points.back()) < key(line.points.front())) {
    std::reverse(line.points.begin(), line.points.end());
  }
}

}  // namespace

Point2 Arc::at(double t) const {
  const double u = major * std::cos(t);
  const double v = minor * std::sin(t);
  const double c = std::cos(tilt);
  const double s = std::sin(tilt);
  return {centre.x + u * c - v * s, centre.y + u * s + v * c};
}

std::vector<ViewLine> cleaned(const RawView& raw) {
  std::vector<ViewLine> lines;
  addStraight(raw.segments, lines);
  addArcs(raw.arcs, lines);
  addOthers(raw.others, lines);
  for (ViewLine& line : lines) {
    for (Point2& p : line.points) p = {rounded(p.x), rounded(p.y)};
    settleSense(line);
  }
  std::sort(lines.begin(), lines.end(), [](const ViewLine& a, const ViewLine& b) {
    if (a.visible != b.visible) return a.visible;
    return std::lexicographical_compare(
        a.points.begin(), a.points.end(), b.points.begin(), b.points.end(),
        [](Point2 p, Point2 q) { return std::pair(p.x, p.y) < std::pair(q.x, q.y); });
  });
  return lines;
}

}  // namespace dryfit::kernel

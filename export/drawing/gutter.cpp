#include "export/drawing/gutter.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "export/drawing/draughting.h"
#include "export/drawing/spread.h"
#include "export/drawing/text_measure.h"
#include "kernel/tolerance.h"

namespace dryfit::exporting {
namespace {

constexpr double kGap = 1;          ///< between the outline and an extension line
constexpr double kOverrun = 1.5;    ///< of an extension line past its dimension line
constexpr double kLevelStep = 6.5;  ///< from one dimension line to the next
constexpr double kTextLift = 1.2;   ///< base line above the dimension line
constexpr double kArrowRoom = 8;    ///< the shortest line that holds two arrowheads
constexpr double kOutside = 1.5;    ///< from the end of a span to its text, where that is outside
constexpr double kClear = 0.6;      ///< kept free between two texts
constexpr double kLineClear = 0.1;  ///< kept free between a text and a line beside it
constexpr double kRunningPitch = 4.9;  ///< from one running value to the next
constexpr double kEndless = std::numeric_limits<double>::infinity();
constexpr double kKnee = 4;  ///< in which an extension line bends to its running value

struct Interval {
  double low = 0, high = 0;
  [[nodiscard]] bool meets(Interval o) const { return low < o.high && o.low < high; }
  [[nodiscard]] Interval grown(double d) const { return {low - d, high + d}; }
  [[nodiscard]] bool holds(double v) const { return low < v && v < high; }
};

}  // namespace

struct Gutter::Placed {
  SpanDimension span;
  int level = 0;
  Interval line;  ///< the dimension line, with its part under a text that lies outside
  Interval text;
  double start = 0;
};

Point2 Gutter::at(double along, double away) const {
  switch (side_) {
    case Side::top:
      return {along, view_.max.y + away};
    case Side::bottom:
      return {along, view_.min.y - away};
    case Side::left:
      return {view_.min.x - away, along};
    case Side::right:
      return {view_.max.x + away, along};
  }
  return {};
}

void Gutter::add(SpanDimension span) {
  if (span.from > span.to) {
    std::swap(span.from, span.to);
    std::swap(span.insetFrom, span.insetTo);
  }
  const bool known = std::ranges::any_of(spans_, [&](const SpanDimension& s) {
    return std::fabs(s.from - span.from) < kernel::kSameSpan &&
           std::fabs(s.to - span.to) < kernel::kSameSpan;
  });
  if (!known) spans_.push_back(std::move(span));
}

void Gutter::add(RunningValue value) {
  const bool known = std::ranges::any_of(running_, [&](const RunningValue& r) {
    return std::fabs(r.at - value.at) < 0.05 && r.text == value.text;
  });
  if (!known) running_.push_back(std::move(value));
}

void Gutter::draw(Ink& ink) const {
  const double start = drawRunning(ink);
  std::vector<Box2> texts;
  for (const Mark& mark : ink.marks) {
    if (const auto* text = std::get_if<Text>(&mark)) texts.push_back(textBox(*text).grown(kClear));
  }
  for (const Placed& placed : placeSpans(start, texts)) drawSpan(ink, placed);
}

/// Where extension lines of the spans cross the strip of running values.
std::vector<double> Gutter::fixedLines() const {
  std::vector<double> fixed;
  for (const SpanDimension& s : spans_) {
    fixed.push_back(s.from);
    fixed.push_back(s.to);
  }
  std::ranges::sort(fixed);
  return fixed;
}

std::vector<double> Gutter::runningPlaces(const std::vector<RunningValue>& sorted) const {
  const std::vector<double> fixed = fixedLines();
  constexpr double kHalf = kRunningPitch / 2 + 0.2;
  /// The room between fixed lines that a value shares with its neighbours; one that stands on such
  /// a line takes the room before it where that after it is too small.
  const auto roomOf = [&](double value) {
    const auto above = std::ranges::upper_bound(fixed, value + kernel::kOnPaper);
    const auto upTo = [&](auto line) { return line == fixed.end() ? kEndless : *line; };
    const auto below = std::ranges::lower_bound(fixed, value - kernel::kOnPaper);
    const Interval before{below == fixed.begin() ? -kEndless : *std::prev(below), upTo(below)};
    const Interval after{above == fixed.begin() ? -kEndless : *std::prev(above), upTo(above)};
    const auto suffices = [](Interval room) { return room.high - room.low >= 2 * kHalf; };
    return below != above && !suffices(after) && suffices(before) ? before : after;
  };
  std::vector<double> places;
  for (std::size_t i = 0; i < sorted.size();) {
    const Interval room = roomOf(sorted[i].at);
    std::vector<double> wanted;
    for (; i < sorted.size() && roomOf(sorted[i].at).low == room.low; ++i)
      wanted.push_back(sorted[i].at);
    const std::vector<double> here =
        spread(wanted, kRunningPitch, room.low + kHalf, room.high - kHalf);
    places.insert(places.end(), here.begin(), here.end());
  }
  // Rooms that are too small run over: what follows makes way.
  for (std::size_t i = 1; i < places.size(); ++i) {
    places[i] = std::max(places[i], places[i - 1] + kRunningPitch);
  }
  return places;
}

double Gutter::drawRunning(Ink& ink) const {
  if (running_.empty()) return start_;
  std::vector<RunningValue> sorted = running_;
  std::ranges::sort(sorted, {}, &RunningValue::at);
  const double low = std::min(origin_, sorted.front().at);
  const double high = std::max(origin_, sorted.back().at);
  addLine(ink, at(low, start_), at(high, start_));
  ink.add(Arc{at(origin_, start_), 1.1, 0, 360, LineClass::dimension, Layer::dimensions});
  addLine(ink, at(origin_, kGap), at(origin_, start_ + kOverrun));
  const std::vector<double> places = runningPlaces(sorted);
  double widest = 0;
  for (std::size_t i = 0; i < sorted.size(); ++i) {
    const RunningValue& value = sorted[i];
    const bool ahead = value.at >= origin_;
    if (std::fabs(value.at - origin_) < kernel::kOnPaper) {
      // The origin has its circle.
    } else if (std::fabs(value.at - origin_) > 3) {
      addArrowhead(ink, at(value.at, start_), {ahead ? 1.0 : -1.0, 0});
    } else {
      addObliqueStroke(ink, at(value.at, start_));
    }
    const double knee = start_ + kOverrun + kKnee;
    addLine(ink, at(value.at, kGap - value.inset), at(value.at, start_ + kOverrun));
    addLine(ink, at(value.at, start_ + kOverrun), at(places[i], knee));
    const double width = textWidth(value.text, kTextHeight);
    widest = std::max(widest, width);
    const double first = side_ == Side::top ? knee + 0.8 : knee + 0.8 + width;
    ink.add(Text{{places[i] + kTextHeight / 2, at(0, first).y},
                 value.text,
                 kTextHeight,
                 TextAnchor::left,
                 90,
                 TextStyle::regular,
                 Layer::dimensions});
  }
  const double depth = start_ + kOverrun + kKnee + 0.8 + widest;
  // At the bottom and the right, texts of spans lie between their line and the view.
  return depth + (side_ == Side::bottom ? kTextHeight + 2.5 : 2.0);
}

std::vector<Gutter::Placed> Gutter::placeSpans(double start, const std::vector<Box2>& texts) const {
  std::vector<SpanDimension> sorted = spans_;
  std::ranges::stable_sort(
      sorted, {}, [](const SpanDimension& s) { return std::round((s.to - s.from) * 100); });
  std::vector<Placed> placed;
  const auto options = [&](const SpanDimension& s) {
    const double width = textWidth(s.text, kTextHeight);
    const double middle = (s.from + s.to) / 2;
    std::vector<Interval> list;
    if (width + 2 * kLineClear <= s.to - s.from) {
      list.push_back({middle - width / 2, middle + width / 2});
      for (const double share : {0.35, 0.65, 0.25, 0.75}) {
        const double c = s.from + (s.to - s.from) * share;
        if (c - width / 2 > s.from + 4 && c + width / 2 < s.to - 4) {
          list.push_back({c - width / 2, c + width / 2});
        }
      }
    }
    list.push_back({s.to + kOutside, s.to + kOutside + width});
    list.push_back({s.from - kOutside - width, s.from - kOutside});
    return list;
  };
  const auto textIsClear = [&](const Placed& p) {
    const Box2 own = textBox(textOf(p));
    return std::ranges::none_of(texts, [&](const Box2& t) { return t.overlaps(own); }) &&
           std::ranges::none_of(placed, [&](const Placed& o) {
             return o.level == p.level && p.text.grown(kClear).meets(o.text);
           });
  };
  const auto lineIsClear = [&](const Placed& p) {
    return std::ranges::none_of(placed, [&](const Placed& o) {
      return o.level == p.level &&
             (p.line.meets(o.line) || p.text.grown(kLineClear).meets(o.line) ||
              o.text.grown(kLineClear).meets(p.line));
    });
  };
  // No extension line of the outer one passes through the text of the inner one.
  const auto isNotCrossed = [&](const Placed& p) {
    return std::ranges::none_of(placed, [&](const Placed& o) {
      if (o.level == p.level) return false;
      const Interval room = (o.level < p.level ? o : p).text.grown(kLineClear);
      const SpanDimension& crossing = (o.level < p.level ? p : o).span;
      return room.holds(crossing.from) || room.holds(crossing.to);
    });
  };
  // Nor one of those still to come, which lie farther out.
  const auto staysUncrossed = [&](const Placed& p) {
    const Interval room = p.text.grown(kLineClear);
    return std::ranges::none_of(spans_, [&](const SpanDimension& other) {
      return room.holds(other.from) || room.holds(other.to);
    });
  };
  enum class Care { foreseeing, uncrossed, apart };
  const auto place = [&](const SpanDimension& s) {
    const int most = static_cast<int>(placed.size()) + 12;
    Placed p{s, 0, {}, {}, start};
    // A text that a line crosses is the lesser evil beside a place far out.
    for (const Care care : {Care::foreseeing, Care::uncrossed, Care::apart}) {
      const int last = care == Care::apart ? most : static_cast<int>(placed.size()) + 1;
      for (p.level = 0; p.level <= last; ++p.level) {
        for (const Interval& text : options(s)) {
          p.text = text;
          p.line = {std::min(s.from, text.low), std::max(s.to, text.high)};
          if (!textIsClear(p) || !lineIsClear(p)) continue;
          if (care != Care::apart && !isNotCrossed(p)) continue;
          if (care != Care::foreseeing || staysUncrossed(p)) return p;
        }
      }
    }
    return p;
  };
  for (const SpanDimension& s : sorted) placed.push_back(place(s));
  return placed;
}

void Gutter::drawSpan(Ink& ink, const Placed& placed) const {
  const SpanDimension& s = placed.span;
  const double away = placed.start + placed.level * kLevelStep;
  addLine(ink, at(s.from, kGap - s.insetFrom), at(s.from, away + kOverrun));
  addLine(ink, at(s.to, kGap - s.insetTo), at(s.to, away + kOverrun));
  addLine(ink, at(placed.line.low, away), at(placed.line.high, away));
  const Point2 forward = horizontal() ? Point2{1, 0} : Point2{0, 1};
  if (s.to - s.from >= kArrowRoom) {
    addArrowhead(ink, at(s.from, away), {-forward.x, -forward.y});
    addArrowhead(ink, at(s.to, away), forward);
  } else {
    addObliqueStroke(ink, at(s.from, away));
    addObliqueStroke(ink, at(s.to, away));
  }
  ink.add(textOf(placed));
}

/// The text of a dimension, to be read from the bottom or from the right: above its line, or left
/// of it.
Text Gutter::textOf(const Placed& placed) const {
  Point2 base =
      at((placed.text.low + placed.text.high) / 2, placed.start + placed.level * kLevelStep);
  (horizontal() ? base.y : base.x) += horizontal() ? kTextLift : -kTextLift;
  return {base,
          placed.span.text,
          kTextHeight,
          TextAnchor::middle,
          horizontal() ? 0.0 : 90.0,
          TextStyle::regular,
          Layer::dimensions};
}

}  // namespace dryfit::exporting

#include "export/layout/datum_scale.h"

#include <algorithm>
#include <cmath>

#include "export/drawing/draughting.h"
#include "export/drawing/spread.h"
#include "export/drawing/text_measure.h"

namespace dryfit::exporting {
namespace {

constexpr double kGap = 0.8;      ///< between the outline and an extension line
constexpr double kOverrun = 1.2;  ///< of an extension line past the dimension line
constexpr double kKnee = 3;       ///< in which it bends to its value
constexpr double kPitch = 3.9;    ///< from one value to the next
constexpr double kArrowRoom = 3.2;

bool isAcross(Side side) {
  return side == Side::top || side == Side::bottom;
}

Point2 placeOf(const DatumScale& s, double along, double away) {
  switch (s.side) {
    case Side::top:
      return {along, s.view.max.y + away};
    case Side::bottom:
      return {along, s.view.min.y - away};
    case Side::left:
      return {s.view.min.x - away, along};
    case Side::right:
      return {s.view.max.x + away, along};
  }
  return {};
}

/// To be read from the bottom or from the right, away from the view.
Text valueText(const DatumScale& s, const DatumMark& mark, double along, double away) {
  const double half = kSmallTextHeight / 2;
  Point2 at = placeOf(s, along, away);
  const bool outward = s.side == Side::top || s.side == Side::right;
  if (isAcross(s.side)) {
    at.x += half;
  } else {
    at.y -= half;
  }
  return {at,
          mark.text,
          kSmallTextHeight,
          outward ? TextAnchor::left : TextAnchor::right,
          isAcross(s.side) ? 90.0 : 0.0,
          TextStyle::regular,
          Layer::dimensions};
}

}  // namespace

void DatumScale::draw(Ink& ink) const {
  if (marks.empty()) return;
  std::vector<DatumMark> sorted = marks;
  std::ranges::sort(sorted, {}, &DatumMark::along);
  const auto equal = [](const DatumMark& a, const DatumMark& b) {
    return std::fabs(a.along - b.along) < 1e-3 && a.text == b.text;
  };
  sorted.erase(std::unique(sorted.begin(), sorted.end(), equal), sorted.end());

  const double low = isAcross(side) ? view.min.x : view.min.y;
  const double from = origin.value_or(low);
  addLine(ink, placeOf(*this, std::min(from, sorted.front().along), start),
          placeOf(*this, sorted.back().along, start));
  if (origin) {
    ink.add(
        Arc{placeOf(*this, *origin, start), 1.1, 0, 360, LineClass::dimension, Layer::dimensions});
    addLine(ink, placeOf(*this, *origin, kGap), placeOf(*this, *origin, start + kOverrun));
  }
  std::vector<double> wanted;
  wanted.reserve(sorted.size());
  for (const DatumMark& mark : sorted) wanted.push_back(mark.along);
  const std::vector<double> places = spread(wanted, kPitch, low);
  double before = from;
  for (std::size_t i = 0; i < sorted.size(); ++i) {
    const double along = sorted[i].along;
    const double knee = start + kOverrun + kKnee;
    addLine(ink, placeOf(*this, along, kGap), placeOf(*this, along, start + kOverrun));
    addLine(ink, placeOf(*this, along, start + kOverrun), placeOf(*this, places[i], knee));
    if (along - before >= kArrowRoom) {
      addArrowhead(ink, placeOf(*this, along, start), isAcross(side) ? Point2{1, 0} : Point2{0, 1});
    } else {
      addObliqueStroke(ink, placeOf(*this, along, start));
    }
    before = along;
    ink.add(valueText(*this, sorted[i], places[i], knee + 0.7));
  }
}

}  // namespace dryfit::exporting

#include <algorithm>
#include <cmath>

#include "export/drawing/draughting.h"
#include "export/drawing/leaning_cut.h"
#include "export/drawing/part_details.h"
#include "export/drawing/text_measure.h"
#include "export/drawing/view_block.h"
#include "joinery/piece/over_run.h"
#include "kernel/tolerance.h"

namespace dryfit::exporting {
namespace {

using joinery::Feature;

/// A wavy line across the wood where a detail leaves the rest of it out.
void addBreakLine(Ink& ink, Point2 a, Point2 b) {
  const double length = std::hypot(b.x - a.x, b.y - a.y);
  const Point2 d{(b.x - a.x) / length, (b.y - a.y) / length};
  const int waves = std::max(2, static_cast<int>(std::lround(length / 7)));
  Stroke stroke{{}, false, LineClass::dimension, Layer::outline};
  const int steps = waves * 12;
  for (int i = 0; i <= steps; ++i) {
    const double s = length * i / steps;
    const double off = 0.6 * std::sin(2 * 3.14159265358979 * waves * i / steps);
    stroke.points.push_back({a.x + d.x * s - d.y * off, a.y + d.y * s + d.x * off});
  }
  ink.add(std::move(stroke));
}

/// Draws one detail.
class DetailPen {
 public:
  DetailPen(const PartContext& context, const Detail& detail, double scale)
      : c_(context), d_(detail), block_(detail.view, scale, detail.window) {}

  Ink draw() {
    if (d_.section) block_.hatch();
    for (const std::size_t i : d_.features) dimension(c_.part.features[i]);
    addBreaks();
    Ink ink = block_.draw();
    addTitle(ink);
    return ink;
  }

 private:
  /// One of the two directions of the picture.
  struct Way {
    int axis = 0;       ///< of the part
    bool along = true;  ///< true: right, false: up
  };

  [[nodiscard]] static int axisOf(kernel::Vec3 v) {
    return std::fabs(v.x) > 0.5 ? 0 : std::fabs(v.y) > 0.5 ? 1 : 2;
  }
  [[nodiscard]] static double inWay(Point2 p, bool along) { return along ? p.x : p.y; }

  /// Paper place of a coordinate of the part along a way.
  [[nodiscard]] double paper(Way way, double value) const {
    kernel::Point3 p;
    p.set(way.axis, value);
    return inWay(d_.view.of(p), way.along) * block_.scale();
  }

  /// The coordinate of the face from which the way is measured, where there is one in sight.
  [[nodiscard]] std::optional<double> reference(Way way) const {
    const joinery::LocalFace face =
        way.axis == c_.pose.faceSide.axis ? c_.pose.faceSide : c_.pose.faceEdge;
    if (way.axis != face.axis) return std::nullopt;
    const double plane = face.far ? c_.part.size[face.axis] : 0;
    const double place = paper(way, plane);
    const Box2& box = block_.box();
    const double low = inWay(box.min, way.along);
    const double high = inWay(box.max, way.along);
    if (place < low - kernel::kDrawnAlike || place > high + kernel::kDrawnAlike)
      return std::nullopt;
    return plane;
  }

  void dimension(const Feature& f) {
    for (const bool along : {true, false}) {
      const Way way{axisOf(along ? d_.view.eye.right : d_.view.eye.up), along};
      dimension(f, way);
    }
  }

  void dimension(const Feature& f, Way way) {
    const double low = f.extent.min[way.axis];
    const double high = f.extent.max[way.axis];
    if (way.axis == f.face.axis) {
      if (!f.through || standsOut(f.purpose)) addSpan(f, way, low, high, "");
      return;
    }
    if (c_.runsOut(f, way.axis) || slopeOf(f)) return;
    if (const auto leaning = leaningCut(c_.part, f); leaning && leaning->axis == way.axis) {
      addSpan(f, way, leaning->opening.min[way.axis], leaning->opening.max[way.axis], "");
      return;
    }
    addSpan(f, way, low, high, isRound(f) ? "⌀ " : "");
    const std::optional<double> plane = reference(way);
    if (!plane) return;
    const double to = isRound(f)                                           ? (low + high) / 2
                      : std::fabs(low - *plane) < std::fabs(high - *plane) ? low
                                                                           : high;
    if (std::fabs(to - *plane) > kernel::kDrawnAlike && !endsAnother(f, way, *plane, to)) {
      addSpan(f, way, *plane, to, "");
    }
  }

  /// True where another feature ends at the place, seen from the face: its own dimensions lead
  /// there already.
  [[nodiscard]] bool endsAnother(const Feature& f, Way way, double plane, double place) const {
    return std::ranges::any_of(d_.features, [&](std::size_t i) {
      const Feature& other = c_.part.features[i];
      if (&other == &f || way.axis == other.face.axis || c_.runsOut(other, way.axis)) return false;
      const double low = other.extent.min[way.axis];
      const double high = other.extent.max[way.axis];
      const double far = std::fabs(low - plane) > std::fabs(high - plane) ? low : high;
      return std::fabs(far - place) < kernel::kDrawnAlike;
    });
  }

  void addSpan(const Feature& f, Way way, double from, double to, const std::string& sign) {
    const Side side = sideFor(f, way);
    const Box2 flat = d_.view.of(shownExtent(d_, f));
    const Box2& box = block_.box();
    const double k = block_.scale();
    const double inset = side == Side::top      ? box.max.y - flat.max.y * k
                         : side == Side::bottom ? flat.min.y * k - box.min.y
                         : side == Side::left   ? flat.min.x * k - box.min.x
                                                : box.max.x - flat.max.x * k;
    const auto insetAt = [&](double value) {
      const bool own = std::fabs(value - f.extent.min[way.axis]) < kernel::kDrawnAlike ||
                       std::fabs(value - f.extent.max[way.axis]) < kernel::kDrawnAlike;
      return own ? std::max(0.0, inset) : 0.0;
    };
    block_.gutter(side).add(SpanDimension{paper(way, from), paper(way, to),
                                          sign + c_.length(std::fabs(to - from)), insetAt(from),
                                          insetAt(to)});
  }

  /// Dimensions stand on the side by which a cut enters, else below and at the left.
  [[nodiscard]] Side sideFor(const Feature& f, Way way) const {
    const kernel::Vec3 out = f.face.outward();
    const double right = out.dot(d_.view.eye.right);
    const double up = out.dot(d_.view.eye.up);
    if (way.along) return up > 0.5 ? Side::top : Side::bottom;
    return right > 0.5 ? Side::right : Side::left;
  }

  void addBreaks() {
    if (!d_.window) return;
    const Box2 all = d_.view.bounds();
    const Box2& box = block_.box();
    Ink ink;
    const auto cut = [](double shown, double whole) {
      return std::fabs(shown - whole) > kernel::kDrawnAlike;
    };
    if (cut(d_.window->min.x, all.min.x)) addBreakLine(ink, box.min, {box.min.x, box.max.y});
    if (cut(d_.window->max.x, all.max.x)) addBreakLine(ink, {box.max.x, box.min.y}, box.max);
    if (cut(d_.window->min.y, all.min.y)) addBreakLine(ink, box.min, {box.max.x, box.min.y});
    if (cut(d_.window->max.y, all.max.y)) addBreakLine(ink, {box.min.x, box.max.y}, box.max);
    block_.addInk(ink);
  }

  void addTitle(Ink& ink) const {
    const Box2 all = ink.bounds();
    const double middle = block_.box().centre().x;
    const double first = all.min.y - 3 - kTextHeight;
    ink.add(Text{{middle, first},
                 d_.title + "  " + scaleText(block_.scale()),
                 kTextHeight,
                 TextAnchor::middle,
                 0,
                 TextStyle::bold,
                 Layer::text});
    ink.add(Text{{middle, first - 2.2 - kSmallTextHeight},
                 d_.note,
                 kSmallTextHeight,
                 TextAnchor::middle,
                 0,
                 TextStyle::regular,
                 Layer::text});
  }

  const PartContext& c_;
  const Detail& d_;
  ViewBlock block_;
};

}  // namespace

Ink drawDetail(const PartContext& context, const Detail& detail, double scale) {
  return DetailPen(context, detail, scale).draw();
}

}  // namespace dryfit::exporting

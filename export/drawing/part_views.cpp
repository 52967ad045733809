#include "export/drawing/part_views.h"

#include "joinery/piece/over_run.h"
#include "joinery/piece/true_lengths.h"

#include <algorithm>
#include <cmath>

#include "export/drawing/draughting.h"
#include "export/drawing/leaning_cut.h"
#include "export/drawing/view_block.h"
#include "joinery/formula/length_text.h"
#include "kernel/tolerance.h"

namespace dryfit::exporting {
namespace {

using joinery::Feature;
using joinery::LocalFace;
using joinery::Showing;
using kernel::Box3;
using kernel::Viewpoint;

constexpr double kViewGap = 4;  ///< between the strips of two views
constexpr double kEndGap = 5;   ///< between front view and end view

/// The face by whose view a feature is dimensioned.
LocalFace homeFace(const PartContext& c, const Feature& f) {
  // What stands out of an end or an edge shows its length from the face side.
  if (f.face.axis == 0) return c.pose.faceSide;
  if (standsOut(f.purpose) && f.face.axis == c.pose.faceEdge.axis) return c.pose.faceSide;
  if (!f.through) return f.face;
  return f.face.axis == c.pose.faceSide.axis ? c.pose.faceSide : c.pose.faceEdge;
}

bool isHome(const PartContext& c, LocalFace face) {
  return std::ranges::any_of(c.part.features,
                             [&](const Feature& f) { return homeFace(c, f) == face; });
}

LocalFace opposite(LocalFace face) {
  return {face.axis, !face.far};
}

/// Points inside a feature's picture at which a leader may end.
std::vector<Point2> anchorsIn(const Box2& flat, double scale, bool fromTop) {
  constexpr double kDeep = 8;  // mm of paper; a leader need not go further in
  std::vector<Point2> anchors;
  const double nearest = std::min(0.5, kDeep / (flat.height() * scale));
  for (const double away : {nearest, 0.6 * nearest, 1.4 * nearest}) {
    for (const double share : {0.5, 0.3, 0.7, 0.15, 0.85, 0.06, 0.94}) {
      const double v =
          fromTop ? flat.max.y - away * flat.height() : flat.min.y + away * flat.height();
      anchors.push_back({(flat.min.x + share * flat.width()) * scale, v * scale});
    }
  }
  return anchors;
}

/// One of the long views: what is dimensioned in it and how.
class LongView {
 public:
  LongView(const PartContext& context, const Projection& view, double scale, LocalFace face,
           Side dimensionSide)
      : c_(context),
        view_(view),
        block_(view, scale),
        datum_(datumOf(context.part)),
        face_(face),
        side_(dimensionSide) {
    block_.setBalloonSide(side_ == Side::top ? Side::bottom : Side::top);
    block_.gutter(side_).setOrigin(alongPaper(datum_));
    addFeatures();
  }

  ViewBlock& block() { return block_; }

  /// A dimension between two places along the part.
  void addLengthwise(double from, double to, const std::string& words) {
    block_.gutter(side_).add(SpanDimension{alongPaper(from), alongPaper(to),
                                           c_.length(to - from) + words, insetAt(from),
                                           insetAt(to)});
  }

  /// A dimension between two places across the view, at one of its ends; `inset` is how far inside
  /// that end of the outline the wood begins, mm of the part.
  void addAcross(int axis, double from, double to, Side end, double inset = 0) {
    kernel::Point3 a;
    kernel::Point3 b;
    a.set(axis, from);
    b.set(axis, to);
    const double in = inset * block_.scale();
    block_.gutter(end).add(
        SpanDimension{paper(a).y, paper(b).y, c_.length(std::fabs(to - from)), in, in});
  }

  /// The side of the paper at which the part's far end lies, or its near one.
  [[nodiscard]] Side sideOf(bool farEnd) const {
    const bool farIsRight = alongPaper(c_.part.size.x) > alongPaper(0);
    return farEnd == farIsRight ? Side::right : Side::left;
  }

  /// Over what length the tapers across the axis run.
  void addTaperLengths(int axis) {
    for (const joinery::PlacedTaper& taper : c_.part.tapers) {
      if (taper.face.axis != axis) continue;
      const double length = c_.part.size.x;
      const double start = taper.narrowFar ? taper.from : length - taper.from;
      const double end = taper.narrowFar ? length : 0;
      const bool onThisSide = (nearSide(axis) > 0) == taper.face.far;
      block_.gutter(side_).add(SpanDimension{alongPaper(start), alongPaper(end),
                                             c_.length(std::fabs(end - start)) + " tapered", 0,
                                             onThisSide ? taper.by * block_.scale() : 0});
    }
  }

 private:
  [[nodiscard]] Point2 paper(kernel::Point3 p) const {
    const Point2 flat = view_.of(p);
    return {flat.x * block_.scale(), flat.y * block_.scale()};
  }
  [[nodiscard]] double alongPaper(double x) const { return paper({x, 0, 0}).x; }

  /// How far inside the outline the wood ends at a place along the part beyond the shoulders.
  [[nodiscard]] double insetAt(double x) const {
    if (x > -kernel::kDrawnAlike && x < c_.part.size.x + kernel::kDrawnAlike) return 0;
    double inset = block_.box().height() / 2;
    for (const Feature& f : c_.part.features) {
      if (!standsOut(f.purpose) || x < f.extent.min.x - kernel::kDrawnAlike ||
          x > f.extent.max.x + kernel::kDrawnAlike) {
        continue;
      }
      const Box2 flat = view_.of(f.extent);
      inset =
          std::min(inset, side_ == Side::top ? block_.box().max.y - flat.max.y * block_.scale()
                                             : flat.min.y * block_.scale() - block_.box().min.y);
    }
    return std::max(0.0, inset);
  }

  void addFeatures() {
    for (std::size_t i = 0; i < c_.part.features.size(); ++i) {
      const Feature& f = c_.part.features[i];
      if (homeFace(c_, f) != face_ || isSlantedEnd(f)) continue;
      block_.addBalloon(c_.letterOf(i),
                        anchorsIn(view_.of(f.extent), block_.scale(), side_ == Side::bottom));
      if (f.face.axis == 0 || traitsOf(f.purpose).showing == Showing::notAtAll) continue;
      if (c_.repeats(i)) continue;
      if (isRound(f)) {
        addRunning(f, f.extent.centre().x);
        addCentreLines(f);
      } else if (const auto slope = slopeOf(f)) {
        for (const double x : slope->sidesAt(nearSide(slope->across))) addRunning(f, x);
      } else if (const auto leaning = leaningCut(c_.part, f)) {
        const Box3& opening = leaning->exit && face_ != f.face ? *leaning->exit : leaning->opening;
        addRunning(f, opening.min.x);
        addRunning(f, opening.max.x);
      } else if (!c_.runsOut(f, 0)) {
        const Box3 worked = workedExtent(c_.part, f);
        addRunning(f, worked.min.x);
        addRunning(f, worked.max.x);
        addRunOn(f);
      }
    }
    if (hasRunning_) block_.gutter(side_).add(RunningValue{alongPaper(datum_), "0", 0});
  }

  /// The coordinate of the blank's side on which the dimensions stand.
  [[nodiscard]] double nearSide(int axis) const {
    kernel::Point3 far;
    far.set(axis, c_.part.size[axis]);
    const bool farIsUp = paper(far).y > paper({}).y;
    return farIsUp == (side_ == Side::top) ? c_.part.size[axis] : 0;
  }

  void addRunning(const Feature& f, double x) {
    if (x <= datum_ + kernel::kDrawnAlike || std::fabs(x - c_.part.size.x) <= kernel::kDrawnAlike)
      return;
    if (x > c_.part.size.x && (standsOut(f.purpose) || isAtEnd(x))) return;
    hasRunning_ = true;
    block_.gutter(side_).add(
        RunningValue{alongPaper(x), c_.length(x - datum_), std::max(0.0, insetOf(f) - 1)});
  }

  /// True where the part's wood ends at the place.
  [[nodiscard]] bool isAtEnd(double x) const {
    const Box3 all = c_.part.overall();
    return x <= all.min.x + kernel::kDrawnAlike || x >= all.max.x - kernel::kDrawnAlike;
  }

  /// A cut that runs on past the datum shoulder and ends in the wood beyond: how far it does, and
  /// its whole length, which is what the cutter runs.
  void addRunOn(const Feature& f) {
    const double low = workedExtent(c_.part, f).min.x;
    const double high = workedExtent(c_.part, f).max.x;
    if (standsOut(f.purpose) || low >= -kernel::kDrawnAlike || isAtEnd(low)) return;
    const double inset = std::max(0.0, insetOf(f) - 1);
    block_.gutter(side_).add(
        SpanDimension{alongPaper(low), alongPaper(0), c_.length(-low), inset, 0});
    block_.gutter(side_).add(
        SpanDimension{alongPaper(low), alongPaper(high), c_.length(high - low), inset, inset});
  }

  /// How far the feature lies inside the side on which the dimensions stand, mm of paper.
  [[nodiscard]] double insetOf(const Feature& f) const {
    const Box2 flat = view_.of(f.extent);
    return side_ == Side::top ? block_.box().max.y - flat.max.y * block_.scale()
                              : flat.min.y * block_.scale() - block_.box().min.y;
  }

  void addCentreLines(const Feature& f) {
    const Point2 centre = paper(f.extent.centre());
    const double reach = view_.of(f.extent).height() / 2 * block_.scale() + 1.5;
    Ink ink;
    addLine(ink, {centre.x - reach, centre.y}, {centre.x + reach, centre.y}, LineClass::centre,
            Layer::centre);
    addLine(ink, {centre.x, centre.y - reach}, {centre.x, centre.y + reach}, LineClass::centre,
            Layer::centre);
    block_.addInk(ink);
  }

  const PartContext& c_;
  const Projection& view_;
  ViewBlock block_;
  double datum_;  ///< along the part
  LocalFace face_;
  Side side_;
  bool hasRunning_ = false;
};

/// What stands out at the ends: "tenons", "tongues" or both as "joints".
std::string endWords(const PartContext& c) {
  std::string words;
  for (const Feature& f : c.part.features) {
    if (!standsOut(f.purpose) || f.face.axis != 0) continue;
    const std::string_view word = traitsOf(f.purpose).atEnds;
    if (word.empty()) continue;
    if (words.empty()) words = word;
    if (words != word) words = "joints";
  }
  return words.empty() ? "joints" : words;
}

/// False where all that stands out of the ends is as thick as the part, as a panel's edges are.
bool hasShoulders(const PartContext& c) {
  return std::ranges::any_of(c.part.features, [&](const Feature& f) {
    return standsOut(f.purpose) && f.face.axis == 0 && !c.runsOut(f, c.pose.faceSide.axis);
  });
}

void addOverallLengths(const PartContext& c, LongView& front) {
  const Box3 all = c.part.overall();
  const double length = c.part.size.x;
  const bool longer = all.min.x < -kernel::kDrawnAlike || all.max.x > length + kernel::kDrawnAlike;
  const auto lines = joinery::shoulderLines(c.part);
  if (!lines.isSquare()) {
    // A rule is laid along an edge: each of the two that are seen has a length of its own.
    const bool side = c.pose.faceSide.far, edge = c.pose.faceEdge.far;
    for (const bool opposite : {false, true}) {
      const joinery::LongEdge& line = lines.at(edge != opposite, side);
      front.addLengthwise(line.lo, line.hi, opposite ? " opposite edge" : " face edge");
    }
    const double datum = lines.at(edge, side).lo;
    if (all.min.x < datum - kernel::kDrawnAlike) front.addLengthwise(all.min.x, datum, "");
    front.addLengthwise(all.min.x, all.max.x, " overall");
    return;
  }
  const joinery::LongEdge shoulders = lines.at(false, false);
  if (longer) {
    front.addLengthwise(shoulders.lo, shoulders.hi,
                        hasShoulders(c) ? " between shoulders" : " sight size");
  }
  // The far tenon stays out: overall, shoulders and one tenon fix it, and a chain is not closed.
  if (all.min.x < -kernel::kDrawnAlike) front.addLengthwise(all.min.x, shoulders.lo, "");
  front.addLengthwise(all.min.x, all.max.x,
                      longer ? " overall, with " + endWords(c) : std::string());
}

/// Where the wood lies across one end of the blank, between its tapers.
struct Wood {
  double low = 0, high = 0;
};

Wood woodAtEnd(const PartContext& c, int axis, bool farEnd) {
  Wood wood{0, c.part.size[axis]};
  for (const joinery::PlacedTaper& taper : c.part.tapers) {
    if (taper.face.axis != axis || taper.narrowFar != farEnd) continue;
    if (taper.face.far) {
      wood.high -= taper.by;
    } else {
      wood.low += taper.by;
    }
  }
  return wood;
}

/// The full size stands at an end that has it, and what a taper leaves at the end where it does.
void addSizesAcross(const PartContext& c, LongView& view, int axis) {
  const Box3 all = c.part.overall();
  const double size = c.part.size[axis];
  const auto isNarrow = [&](bool farEnd) {
    const Wood wood = woodAtEnd(c, axis, farEnd);
    return wood.high - wood.low < size - kernel::kDrawnAlike;
  };
  const bool rightIsFar = view.sideOf(true) == Side::right;
  const Side full = isNarrow(rightIsFar) && !isNarrow(!rightIsFar) ? Side::left : Side::right;
  if (all.max[axis] - all.min[axis] > size + kernel::kDrawnAlike)
    view.addAcross(axis, 0, size, full);
  view.addAcross(axis, all.min[axis], all.max[axis], full);
  for (const bool farEnd : {false, true}) {
    if (!isNarrow(farEnd)) continue;
    const Wood wood = woodAtEnd(c, axis, farEnd);
    view.addAcross(axis, wood.low, wood.high, view.sideOf(farEnd),
                   farEnd ? all.max.x - c.part.size.x : -all.min.x);
  }
  view.addTaperLengths(axis);
}

}  // namespace

Result<PartPictures> picturesOf(const PartContext& c) {
  const std::span<const kernel::Solid> solids(&c.solid, 1);
  PartPictures pictures;
  const auto take = [&](Projection& to, const Viewpoint& eye) -> Result<void> {
    auto view = projectOnce(c.memory, solids, eye);
    if (!view) return tl::unexpected(view.error());
    to = std::move(*view);
    return {};
  };
  const PartPose& p = c.pose;
  if (auto r = take(pictures.front, {p.right, p.up}); !r) return tl::unexpected(r.error());
  if (auto r = take(pictures.edge, {p.right, -p.out}); !r) return tl::unexpected(r.error());
  if (auto r = take(pictures.end, {p.out, p.up}); !r) return tl::unexpected(r.error());
  if (isHome(c, opposite(p.faceEdge))) {
    pictures.oppositeEdge.emplace();
    if (auto r = take(*pictures.oppositeEdge, {p.right, p.out}); !r) {
      return tl::unexpected(r.error());
    }
  }
  if (isHome(c, opposite(p.faceSide))) {
    pictures.back.emplace();
    if (auto r = take(*pictures.back, {p.right, -p.up}); !r) return tl::unexpected(r.error());
  }
  return pictures;
}

std::vector<Ink> drawPartViews(const PartContext& c, const PartPictures& pictures, double scale,
                               BackPlace backPlace) {
  const PartPose& pose = c.pose;
  LongView front(c, pictures.front, scale, pose.faceSide, Side::top);
  front.block().setName("Face side");
  front.block().setFaceSideMark();
  if (const auto grain = c.part.grain) {
    front.block().setGrain(pose.faceEdge.squareTo(*grain));
  }
  addOverallLengths(c, front);
  addSizesAcross(c, front, pose.faceEdge.axis);

  LongView edge(c, pictures.edge, scale, pose.faceEdge, Side::bottom);
  edge.block().setName("Face edge");
  edge.block().setFaceEdgeMark();
  addSizesAcross(c, edge, pose.faceSide.axis);

  std::vector<Ink> inks{front.block().draw()};
  Box2 all = inks.front().bounds();
  const auto place = [&](Ink ink, double dx, double dy) {
    ink.move(dx, dy);
    all.add(ink.bounds());
    inks.push_back(std::move(ink));
  };
  const auto placeBelow = [&](const Ink& ink) {
    place(ink, 0, all.min.y - kViewGap - ink.bounds().max.y);
  };
  const double frontRight = all.max.x;
  placeBelow(edge.block().draw());
  std::optional<Ink> backInk;
  if (pictures.back) {
    LongView back(c, *pictures.back, scale, opposite(pose.faceSide), Side::bottom);
    back.block().setName("Back, rolled over from the face edge");
    backInk = back.block().draw();
    if (backPlace == BackPlace::below) placeBelow(*backInk);
  }
  if (pictures.oppositeEdge) {
    LongView under(c, *pictures.oppositeEdge, scale, opposite(pose.faceEdge), Side::top);
    under.block().setName("Opposite edge");
    const Ink ink = under.block().draw();
    place(ink, 0, all.max.y + kViewGap - ink.bounds().min.y);
  }
  ViewBlock end(pictures.end, scale);
  end.setName("Left end");
  const Ink endInk = end.draw();
  place(endInk, frontRight + kEndGap - endInk.bounds().min.x, 0);
  if (backInk && backPlace == BackPlace::beside) {
    place(*backInk, all.max.x + kEndGap - backInk->bounds().min.x,
          all.max.y - backInk->bounds().max.y);
  }
  return inks;
}

}  // namespace dryfit::exporting

#include "export/drawing/part_details.h"

#include "export/drawing/leaning_cut.h"
#include "joinery/piece/over_run.h"
#include "kernel/tolerance.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace dryfit::exporting {
namespace {

using joinery::Feature;
using joinery::Showing;
using kernel::Viewpoint;

constexpr double kWholeUpTo = 75;     ///< mm of wood shown uncut in a detail
constexpr double kRoundFeature = 14;  ///< mm of wood shown beyond a feature where it is cut short
constexpr double kToReference = 40;   ///< mm within which the face edge or side is shown too
constexpr double kTogether = 30;      ///< mm along the part within which cuts share a section

/// The direction in which the feature runs: square to it its section tells most. Of a leaning cut
/// that is the section that shows the lean.
int runAxis(const joinery::PlacedPart& part, const Feature& f) {
  if (const auto leaning = leaningCut(part, f)) return 3 - f.face.axis - leaning->axis;
  if (isRound(f)) return f.face.axis == 0 ? 2 : 0;
  const int a = f.face.axis == 0 ? 1 : 0;
  const int b = f.face.axis == 2 ? 1 : 2;
  return f.extent.size()[a] >= f.extent.size()[b] - kernel::kDrawnAlike ? a : b;
}

/// Finds the details and what each of them shows.
class DetailFinder {
 public:
  explicit DetailFinder(const PartContext& context) : c_(context) {}

  Result<std::vector<Detail>> find() {
    for (std::size_t i = 0; i < c_.part.features.size(); ++i) {
      const bool told = cutWith(c_.part, feature(i)) && !c_.repeats(i);
      if (isPlain(feature(i)) || told) shown_.insert(c_.letterOf(i));
    }
    for (const bool far : {false, true}) {
      if (auto r = addEnd(far); !r) return tl::unexpected(r.error());
    }
    while (const std::optional<Plane> plane = bestPlane()) {
      if (auto r = addSection(*plane); !r) return tl::unexpected(r.error());
    }
    return std::move(details_);
  }

 private:
  struct Plane {
    int axis = 0;
    double at = 0;
    std::size_t feature = 0;
    std::vector<std::size_t> shows;
  };

  /// An edge as thick as the part itself, or a cut made to another part's face: no section tells
  /// more of it than the views do.
  [[nodiscard]] bool isPlain(const Feature& f) const {
    if (traitsOf(f.purpose).showing == Showing::notAtAll) return true;
    return standsOut(f.purpose) && f.face.axis != c_.pose.faceSide.axis &&
           c_.runsOut(f, c_.pose.faceSide.axis);
  }

  [[nodiscard]] const Feature& feature(std::size_t i) const { return c_.part.features[i]; }
  [[nodiscard]] bool isShown(std::size_t i) const { return shown_.contains(c_.letterOf(i)); }

  /// Features of one section: those that its plane cuts, that run square to it and that lie near
  /// the first one.
  [[nodiscard]] std::vector<std::size_t> cutBy(int axis, double at, const Feature& first) const {
    std::vector<std::size_t> list;
    for (std::size_t i = 0; i < c_.part.features.size(); ++i) {
      const Feature& f = feature(i);
      if (isPlain(f)) continue;
      if (f.extent.min[axis] + kernel::kDrawnAlike < at &&
          at < f.extent.max[axis] - kernel::kDrawnAlike && runAxis(c_.part, f) == axis &&
          (axis == 0 || isBeside(f, first))) {
        list.push_back(i);
      }
    }
    return list;
  }

  [[nodiscard]] static bool isBeside(const Feature& f, const Feature& first) {
    return f.extent.min.x - first.extent.max.x < kTogether &&
           first.extent.min.x - f.extent.max.x < kTogether;
  }

  [[nodiscard]] std::size_t news(const std::vector<std::size_t>& features) const {
    std::set<std::string> letters;
    for (const std::size_t i : features) {
      if (!isShown(i)) letters.insert(c_.letterOf(i));
    }
    return letters.size();
  }

  [[nodiscard]] std::optional<Plane> bestPlane() const {
    std::optional<Plane> best;
    for (std::size_t i = 0; i < c_.part.features.size(); ++i) {
      if (isShown(i)) continue;
      const int axis = runAxis(c_.part, feature(i));
      const double at = feature(i).extent.centre()[axis];
      Plane plane{axis, at, i, cutBy(axis, at, feature(i))};
      if (plane.shows.empty()) plane.shows = {i};
      if (!best || news(plane.shows) > news(best->shows)) best = plane;
    }
    return best;
  }

  Result<void> addEnd(bool far) {
    std::vector<std::size_t> here;
    for (std::size_t i = 0; i < c_.part.features.size(); ++i) {
      const Feature& f = feature(i);
      if (f.face.axis == 0 && f.face.far == far && runAxis(c_.part, f) != 0 && !isRound(f) &&
          !isPlain(f) && traitsOf(f.purpose).showing == Showing::fully) {
        here.push_back(i);
      }
    }
    if (news(here) == 0) return {};
    const double away = far ? 1 : -1;
    const bool fromRight = away * c_.pose.right.x > 0;
    const Viewpoint eye{fromRight ? -c_.pose.out : c_.pose.out, c_.pose.up};
    auto view = projectOnce(c_.memory, std::span(&c_.solid, 1), eye);
    if (!view) return tl::unexpected(view.error());
    std::erase_if(view->lines, [](const kernel::ViewLine& line) { return !line.visible; });
    Detail detail{std::move(*view), {}, false, 0, 0, {}, {}, here};
    detail.title = std::string(fromRight ? "Right" : "Left") + " end";
    if (alike(here)) detail.title = "Both ends";
    detail.note = std::string("face edge up, face side ") + (fromRight ? "left" : "right");
    keep(std::move(detail));
    return {};
  }

  /// True where the same letters stand at both ends, and so one view does for both.
  [[nodiscard]] bool alike(const std::vector<std::size_t>& here) const {
    std::multiset<std::string> near;
    std::multiset<std::string> all;
    for (const std::size_t i : here) near.insert(c_.letterOf(i));
    for (std::size_t i = 0; i < c_.part.features.size(); ++i) {
      if (feature(i).face.axis == 0 && near.contains(c_.letterOf(i))) all.insert(c_.letterOf(i));
    }
    return all.size() == 2 * near.size();
  }

  Result<void> addSection(const Plane& plane) {
    const PartPose& p = c_.pose;
    Viewpoint eye{p.out, p.up};
    std::string note = "face edge up, face side right";
    if (plane.axis == p.faceEdge.axis) {
      eye = {p.right, -p.out};
      note = "face side down";
    } else if (plane.axis == p.faceSide.axis) {
      eye = {p.right, p.up};
      note = "face edge up";
    }
    auto view = projectSectionOnce(c_.memory, c_.solid, {plane.axis, plane.at}, eye);
    for (const std::size_t i : plane.shows) shown_.insert(c_.letterOf(i));
    // A cut that has taken all the wood there shows nothing: the table has the numbers.
    if (!view && view.error().code == ErrorCode::emptyResult) return {};
    if (!view) return tl::unexpected(view.error());
    Detail detail{std::move(*view), {}, true, plane.axis, plane.at, {}, note, plane.shows};
    detail.title = "Section at " + letters(plane.shows);
    keep(std::move(detail));
    return {};
  }

  [[nodiscard]] std::string letters(const std::vector<std::size_t>& features) const {
    std::set<std::string> sorted;
    for (const std::size_t i : features) sorted.insert(c_.letterOf(i));
    std::string text;
    for (const std::string& letter : sorted) text += (text.empty() ? "" : ", ") + letter;
    return text;
  }

  void keep(Detail detail) {
    for (const std::size_t i : detail.features) shown_.insert(c_.letterOf(i));
    oneOfEachRow(detail);
    cutShort(detail);
    details_.push_back(std::move(detail));
  }

  /// Equal features are dimensioned once.
  void oneOfEachRow(Detail& detail) const {
    std::set<std::string> seen;
    std::erase_if(detail.features,
                  [&](std::size_t i) { return !seen.insert(c_.letterOf(i)).second; });
  }

  /// Leaves out wood far from the joints.
  void cutShort(Detail& detail) const {
    const Box2 all = detail.view.bounds();
    Box2 near;
    for (const std::size_t i : detail.features) {
      near.add(detail.view.of(shownExtent(detail, feature(i))));
    }
    const Box2 blank = detail.view.of(c_.part.blank());
    Box2 window = all;
    const auto shorten = [&](double Point2::*way, bool hasReference) {
      if (all.max.*way - all.min.*way <= kWholeUpTo) return;
      window.min.*way = std::max(all.min.*way, near.min.*way - kRoundFeature);
      window.max.*way = std::min(all.max.*way, near.max.*way + kRoundFeature);
      if (window.min.*way - all.min.*way < kRoundFeature) window.min.*way = all.min.*way;
      if (all.max.*way - window.max.*way < kRoundFeature) window.max.*way = all.max.*way;
      if (!hasReference) return;
      // Face edge and face side are up, right, left or down; keep the near one in sight.
      if (blank.max.*way - near.max.*way < kToReference) window.max.*way = all.max.*way;
      if (near.min.*way - blank.min.*way < kToReference) window.min.*way = all.min.*way;
    };
    shorten(&Point2::x, detail.axis == 0);
    shorten(&Point2::y, true);
    if (!(window.min == all.min && window.max == all.max)) detail.window = window;
  }

  const PartContext& c_;
  std::set<std::string> shown_;
  std::vector<Detail> details_;
};

}  // namespace

kernel::Box3 shownExtent(const Detail& detail, const Feature& feature) {
  kernel::Box3 box = feature.extent;
  const auto slope = slopeOf(feature);
  if (!slope || !detail.section || detail.axis != slope->across) return box;
  const auto [low, high] = slope->sidesAt(detail.at);
  box.min.x = low;
  box.max.x = high;
  return box;
}

Result<std::vector<Detail>> detailsOf(const PartContext& context) {
  return DetailFinder(context).find();
}

std::string scaleText(double scale) {
  return scale >= 1 ? fmt::format("{:g}:1", scale) : fmt::format("1:{:g}", std::round(1 / scale));
}

}  // namespace dryfit::exporting

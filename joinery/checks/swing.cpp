#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "joinery/checks/all.h"
#include "joinery/checks/severity.h"
#include "joinery/checks/words.h"
#include "joinery/trade/rules.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery::checking {
namespace {

using kernel::Box3;

/// Degrees to which a door or lid is tried, whatever it is drawn at.
constexpr double kWideOpen = 90;

/// A direction along an axis of the piece.
struct Way {
  int axis = 0;
  bool far = false;
};

/// One part by where it is with everything shut.
struct Shut {
  PartId part;
  Box3 box;
};

/// A door or lid against all that does not turn with it.
class Room {
 public:
  Room(const CheckInput& input, const Swing& swing)
      : input_(input), swing_(swing), about_(static_cast<int>(swing.about)) {
    const std::set<PartId> moving(swing.parts.begin(), swing.parts.end());
    for (const PlacedPart& part : input.piece.parts) {
      auto& side = moving.contains(part.id) ? moving_ : fixed_;
      side.push_back({part.id, kernel::boundsOf(part.closed, solidOf(part.id).bounds())});
    }
    all_ = moving_.front().box;
    for (const Shut& part : moving_) all_ = all_.united(part.box);
    free_ = {about_ == 0 ? 1 : 0, false};
    for (int axis = 0; axis < 3; ++axis) {
      if (axis == about_) continue;
      for (const bool far : {false, true}) {
        if (reach({axis, far}) > reach(free_)) free_ = {axis, far};
      }
    }
    const Box3 swept = sweep();
    std::erase_if(fixed_, [&](const Shut& f) { return swept.common(f.box).empty(); });
  }

  /// Where the gap to what it passes is too small.
  [[nodiscard]] std::optional<Finding> tooNear() const {
    const double least = lengthBy(RuleId::doorGapLeast).mm();
    std::optional<Finding> worst;
    for (const Way way : {free_, Way{about_, false}, Way{about_, true}}) {
      for (const Shut& m : moving_) {
        for (const Shut& f : fixed_) {
          const auto gap = gapAlong(way, m.box, f.box);
          if (!gap || *gap >= least - kernel::kContact || (worst && worst->measured <= *gap)) {
            continue;
          }
          worst = nearFinding(m, f, *gap, way);
        }
      }
    }
    return worst;
  }

  /// What it strikes on its way, turned either way about its line where the drawing does not say.
  [[nodiscard]] Result<std::optional<Finding>> strikes() const {
    if (swing_.degrees != 0) return strikesTurned(swing_.degrees < 0 ? -1 : 1);
    // Most doors are free one way by their boxes alone, and no solids need be turned.
    if (!mayStrike(1) || !mayStrike(-1)) return std::nullopt;
    auto one = strikesTurned(1);
    if (!one || !*one) return one;
    auto other = strikesTurned(-1);
    if (!other || !*other) return other;
    return (*one)->measured >= (*other)->measured ? one : other;
  }

 private:
  [[nodiscard]] const kernel::Solid& solidOf(PartId part) const {
    return input_.solids[part.index()];
  }

  /// A box round all that it can pass, and a gap more.
  [[nodiscard]] Box3 sweep() const {
    double radius = 0;
    for (const bool far : {false, true}) {
      for (const bool deep : {false, true}) {
        const int across = 3 - free_.axis - about_;
        radius = std::fmax(radius, std::hypot(reach({free_.axis, far}), reach({across, deep})));
      }
    }
    Box3 box = all_;
    for (int axis = 0; axis < 3; ++axis) {
      if (axis == about_) continue;
      box.min.set(axis, swing_.at[axis] - radius);
      box.max.set(axis, swing_.at[axis] + radius);
    }
    return box.grown(lengthBy(RuleId::doorGapLeast).mm());
  }

  /// From its line to its farthest wood.
  [[nodiscard]] double reach(Way way) const {
    return way.far ? all_.max[way.axis] - swing_.at[way.axis]
                   : swing_.at[way.axis] - all_.min[way.axis];
  }

  /// By how much the corner behind its free edge swings out beyond that edge.
  [[nodiscard]] double cornerSwing() const {
    const int across = 3 - free_.axis - about_;
    const double deep = std::fmax(reach({across, false}), reach({across, true}));
    return std::hypot(reach(free_), deep) - reach(free_);
  }

  /// The gap between two boxes that look at each other along the way; none where they do not.
  static std::optional<double> gapAlong(Way way, const Box3& moving, const Box3& fixed) {
    const Box3 shared = moving.common(fixed);
    for (int axis = 0; axis < 3; ++axis) {
      if (axis != way.axis && shared.size()[axis] <= kernel::kContact) return std::nullopt;
    }
    const double gap = way.far ? fixed.min[way.axis] - moving.max[way.axis]
                               : moving.min[way.axis] - fixed.max[way.axis];
    if (gap < -kernel::kContact) return std::nullopt;
    return std::fmax(gap, 0);
  }

  [[nodiscard]] std::string name() const {
    std::string words = swing_.group;
    std::ranges::replace(words, '_', ' ');
    return words;
  }

  [[nodiscard]] Finding findingOf(const Shut& m, const Shut& f) const {
    Finding finding;
    finding.kind = FindingKind::binds;
    finding.parts = {m.part, f.part};
    const Box3 between = m.box.common(f.box);
    finding.box = {
        {std::fmin(between.min.x, between.max.x), std::fmin(between.min.y, between.max.y),
         std::fmin(between.min.z, between.max.z)},
        {std::fmax(between.min.x, between.max.x), std::fmax(between.min.y, between.max.y),
         std::fmax(between.min.z, between.max.z)}};
    finding.at = finding.box.centre();
    return finding;
  }

  [[nodiscard]] Finding nearFinding(const Shut& m, const Shut& f, double gap, Way way) const {
    const Rule& usual = rule(RuleId::doorGap);
    Finding finding = findingOf(m, f);
    finding.severity = severityOf(finding.kind);
    finding.measured = gap;
    finding.limit = lengthBy(RuleId::doorGapLeast).mm();
    finding.unit = "mm";
    finding.source = std::string(rule(RuleId::doorGapLeast).source);
    const std::string moving = input_.piece.label(m.part), fixed = input_.piece.label(f.part);
    const std::string_view side = joinery::nameOf(faceOf(static_cast<Axis>(way.axis), way.far));
    finding.text =
        sentence(gap <= kernel::kContact
                     ? fmt::format("{} touches {} at the {} of {}: it will bind", name(), fixed,
                                   side, moving)
                     : fmt::format("{} has only {} of room to {} at the {} of {}: it will bind",
                                   name(), lengthWords(gap, input_.unit), fixed, side, moving));
    finding.mend = sentence(
        fmt::format("leave {} there ({})", lengthWords(usual.value, input_.unit), usual.source));
    return finding;
  }

  [[nodiscard]] Finding strikeFinding(const Shut& m, const Shut& f, double degrees,
                                      double wanted) const {
    Finding finding = findingOf(m, f);
    finding.severity = severityOf(finding.kind, Case::special);
    finding.measured = degrees;
    finding.limit = wanted;
    finding.unit = "°";
    finding.source = "a door or lid opens without striking anything (common practice)";
    const std::string moving = input_.piece.label(m.part), fixed = input_.piece.label(f.part);
    finding.text = sentence(fmt::format("{} strikes {} with its {} at {:.3g}° of its swing", name(),
                                        fixed, moving, degrees));
    if (gapAlong(free_, m.box, f.box)) {
      const double needed = cornerSwing() + lengthBy(RuleId::doorGapLeast).mm();
      finding.mend = sentence(
          fmt::format("leave {} at its free edge: the corner behind that edge swings out by {}",
                      atLeastWords(needed, input_.unit), lengthWords(cornerSwing(), input_.unit)));
    } else {
      finding.mend = sentence(fmt::format(
          "move {} out of its way, or set the line about which {} turns elsewhere", fixed, name()));
    }
    return finding;
  }

  /// The angles at which it is tried: close together where corners pass, and where the corner
  /// behind the free edge is out farthest.
  [[nodiscard]] std::vector<double> stepsTo(double degrees) const {
    std::vector<double> steps;
    for (double at = 0.5; at < 6; at += 0.5) steps.push_back(at);
    for (double at = 6; at < degrees; at += at < 20 ? 2 : 5) steps.push_back(at);
    const int across = 3 - free_.axis - about_;
    for (const bool far : {false, true}) {
      const double corner = std::atan2(reach({across, far}), reach(free_)) * 180 / std::numbers::pi;
      if (corner > 0) steps.push_back(corner);
    }
    steps.push_back(degrees);
    std::erase_if(steps, [&](double at) { return at > degrees; });
    std::ranges::sort(steps);
    return steps;
  }

  [[nodiscard]] double wanted() const { return std::fmax(std::fabs(swing_.degrees), kWideOpen); }

  [[nodiscard]] kernel::Frame turnBy(double degrees) const {
    kernel::Vec3 line;
    line.set(about_, 1);
    return kernel::Frame::rotation(swing_.at, line, Angle::degrees(degrees));
  }

  /// What the part, so turned, may share wood with, by the boxes round both. What turns as well
  /// gets out of the way, and what shares wood when all is shut is told by the check of
  /// interference.
  [[nodiscard]] bool isNear(const Shut& m, const Box3& turned, const Shut& f) const {
    return turned.common(f.box).volume() > kernel::kSliverVolume && !turnsToo(f.part) &&
           m.box.common(f.box).volume() <= kernel::kSliverVolume;
  }

  /// False where the boxes round its parts strike nothing on the way.
  [[nodiscard]] bool mayStrike(int sign) const {
    for (const double degrees : stepsTo(wanted())) {
      const auto turn = turnBy(sign * degrees);
      for (const Shut& m : moving_) {
        const PlacedPart& part = input_.piece.parts[m.part.index()];
        const Box3 box = kernel::boundsOf(turn.after(part.closed), part.overall());
        if (std::ranges::any_of(fixed_, [&](const Shut& f) { return isNear(m, box, f); })) {
          return true;
        }
      }
    }
    return false;
  }

  [[nodiscard]] Result<std::optional<Finding>> strikesTurned(int sign) const {
    for (const double degrees : stepsTo(wanted())) {
      const auto turn = turnBy(sign * degrees);
      for (const Shut& m : moving_) {
        auto struck = struckBy(m, turn);
        if (!struck) return tl::unexpected(struck.error());
        if (*struck) return strikeFinding(m, **struck, degrees, wanted());
      }
    }
    return std::nullopt;
  }

  /// The first part that shares wood with a part so turned.
  [[nodiscard]] Result<std::optional<Shut>> struckBy(const Shut& m,
                                                     const kernel::Frame& turn) const {
    const PlacedPart& part = input_.piece.parts[m.part.index()];
    const kernel::Frame frame = turn.after(part.closed);
    const Box3 box = kernel::boundsOf(frame, part.overall());
    for (const Shut& f : fixed_) {
      if (!isNear(m, box, f)) continue;
      if (auto stop = input_.stopIfAsked(); !stop) return tl::unexpected(stop.error());
      const PlacedPart& other = input_.piece.parts[f.part.index()];
      const auto wood =
          kernel::overlap(solidOf(m.part).placed(frame), solidOf(f.part).placed(other.closed));
      if (!wood) return tl::unexpected(wood.error());
      if (wood->volume > kernel::kSliverVolume) return std::optional(f);
    }
    return std::nullopt;
  }

  [[nodiscard]] bool turnsToo(PartId part) const {
    return std::ranges::any_of(input_.piece.swings, [&](const Swing& s) {
      return std::ranges::find(s.parts, part) != s.parts.end();
    });
  }

  const CheckInput& input_;
  const Swing& swing_;
  int about_;  ///< the axis of its line
  std::vector<Shut> moving_, fixed_;
  Box3 all_;
  Way free_;
};

}  // namespace

Result<void> swing(const CheckInput& input, std::vector<Finding>& findings) {
  for (const Swing& swing : input.piece.swings) {
    if (swing.parts.empty()) continue;
    const Room room(input, swing);
    const auto strikes = room.strikes();
    if (!strikes) return tl::unexpected(strikes.error());
    if (*strikes) {
      findings.push_back(**strikes);
    } else if (const auto near = room.tooNear()) {
      findings.push_back(*near);
    }
  }
  return {};
}

}  // namespace dryfit::joinery::checking

#include "joinery/making/frame_advice.h"

#include "joinery/base/unit.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "joinery/formula/length_text.h"
#include "joinery/trade/rules.h"

namespace dryfit::joinery {
namespace {

using kernel::Box3;

constexpr double kSame = 0.5;  // mm: faces this near to an edge of the frame lie on it

/// The axes of the piece along the frame's width and height.
struct Plane {
  int across = 0, up = 2;
};

Plane planeOf(const Box3& box) {
  const kernel::Vec3 s = box.size();
  int thin = 0;
  for (int axis = 1; axis < 3; ++axis) {
    if (s[axis] < s[thin]) thin = axis;
  }
  return {thin == 0 ? 1 : 0, thin == 2 ? 1 : 2};
}

/// Finds the members on the four sides of a frame.
class Looker {
 public:
  Looker(const Piece& piece, const std::vector<PartId>& parts) : piece_(piece), parts_(parts) {
    box_ = piece.parts[parts.front().index()].span;
    for (const PartId id : parts) box_ = box_.united(piece.parts[id.index()].span);
    plane_ = planeOf(box_);
  }

  [[nodiscard]] FrameLook look() const {
    FrameLook frame;
    frame.width = box_.size()[plane_.across];
    frame.height = box_.size()[plane_.up];
    frame.left = member(plane_.across, plane_.up, false);
    frame.right = member(plane_.across, plane_.up, true);
    frame.bottom = member(plane_.up, plane_.across, false);
    frame.top = member(plane_.up, plane_.across, true);
    findPanel(frame);
    return frame;
  }

 private:
  /// The longest part that lies along this edge of the frame.
  [[nodiscard]] std::optional<FrameMember> member(int edge, int along, bool far) const {
    std::optional<FrameMember> best;
    double longest = 0;
    for (const PartId id : parts_) {
      const Box3& span = piece_.parts[id.index()].span;
      const double off = far ? box_.max[edge] - span.max[edge] : span.min[edge] - box_.min[edge];
      const double length = span.size()[along];
      if (off > kSame || length <= longest || length < span.size()[edge]) continue;
      longest = length;
      best = FrameMember{id, length < box_.size()[along] - kSame};
    }
    return best;
  }

  void findPanel(FrameLook& frame) const {
    double largest = 0;
    for (const PlacedJoint& joint : piece_.joints) {
      if (piece_.joint(joint.id).kind != "panel-groove") continue;
      const PartId panel = joint.mates.front();
      const bool ours = std::ranges::find(parts_, panel) != parts_.end();
      const Box3& span = piece_.parts[panel.index()].span;
      const double area = span.size()[plane_.across] * span.size()[plane_.up];
      if (!ours || area <= largest) continue;
      largest = area;
      frame.panel = panel;
      const auto gap = std::ranges::find(joint.values, "gap", &JointValue::name);
      frame.panelGap = gap == joint.values.end() ? 0 : gap->value;
    }
  }

  const Piece& piece_;
  const std::vector<PartId>& parts_;
  Box3 box_;
  Plane plane_;
};

/// Puts what is wrong into words.
class Adviser {
 public:
  Adviser(const Piece& piece, const FrameLook& look, const FrameShape& shape, Unit unit)
      : piece_(piece), look_(look), shape_(shape), unit_(unit) {}

  [[nodiscard]] std::vector<std::string> all() {
    const double step = lengthBy(RuleId::tapeStep).mm();
    if (!shape_.readingsAgree) {
      say("The readings do not agree: no frame fits them closer than {}. Take all six again "
          "before any wood comes off",
          fine(shape_.disagreement));
    }
    // Half a step over, so that a difference of one step of the tape is not made too much of.
    const bool unequalWidths = std::fabs(shape_.moreAtTop()) > step;
    const bool unequalHeights = std::fabs(shape_.moreAtLeft()) > step;
    const bool racked = std::fabs(shape_.rising - shape_.falling) > step;
    if (unequalWidths || unequalHeights || racked) homeFirst();
    if (unequalWidths) side(shape_.moreAtTop(), "top", "bottom", look_.top, look_.bottom, true);
    if (unequalHeights) side(shape_.moreAtLeft(), "left", "right", look_.left, look_.right, false);
    if (racked) rack();
    if (said_.empty()) {
      say("The frame is square and opposite sides are equal, as near as a tape reads ({})",
          fine(step));
    } else if (!racked && shape_.readingsAgree) {
      say("The diagonals are equal: pulling would not help");
    }
    return std::move(said_);
  }

 private:
  template <class... Args>
  void say(fmt::format_string<Args...> format, Args&&... args) {
    said_.push_back(fmt::format(format, std::forward<Args>(args)...) + ".");
  }

  /// To 0.01 mm, or as fine as the unit's own fractions.
  [[nodiscard]] std::string fine(double mm) const {
    if (unit_ == Unit::inch) return lengthText(Length::mm(mm), unit_) + " in";
    std::string text = fmt::format("{:.{}f}", mm / millimetresIn(unit_), unit_ == Unit::mm ? 2 : 3);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return fmt::format("{} {}", text, nameOf(unit_));
  }

  /// A joint that is not home shows in the readings as a fault of the frame: wood trimmed for it
  /// is lost. Source: common practice.
  void homeFirst() {
    say("First see that every joint is home: shoulders tight all round, nothing caught in a "
        "mortise or groove. If one was not, read again before you pull or trim anything");
  }

  /// One of two opposite sides is longer by `more` (the first where > 0).
  void side(double more, const char* first, const char* second, const std::optional<FrameMember>& a,
            const std::optional<FrameMember>& b, bool widths) {
    const bool firstLonger = more > 0;
    const double by = std::fabs(more);
    const auto& longer = firstLonger ? a : b;
    const auto& shorter = firstLonger ? b : a;
    const double left =
        widths ? std::fmin(shape_.top, shape_.bottom) : std::fmin(shape_.left, shape_.right);
    const double designed = widths ? look_.width : look_.height;
    const std::string head = fmt::format("The frame is {} {} at the {} than at the {}", fine(by),
                                         widths ? "wider" : "higher", firstLonger ? first : second,
                                         firstLonger ? second : first);
    if (!longer) {
      say("{}; no part was found there, so measure to see which one is long", head);
      return;
    }
    const std::string label = piece_.label(longer->part);
    const std::string then = fmt::format("that leaves it {} {}, against {} designed", fine(left),
                                         widths ? "wide" : "high", fine(designed));
    if (longer->shouldered) {
      say("{}. Trim a shoulder of {} by {}, or both by {} each: {}", head, label, fine(by),
          fine(by / 2), then);
    } else {
      say("{}. Trim an end of {} by {}: {}", head, label, fine(by), then);
    }
    const double lacking = designed - left;
    if (lacking > by / 2 && shorter) {
      say("The short one is {}, by {}: remake it if you need the full size",
          piece_.label(shorter->part), fine(lacking));
    }
    panelAfter(by, longer->shouldered);
  }

  /// A shoulder that is set back brings the sides nearer to the panel's edges.
  void panelAfter(double by, bool shouldered) {
    if (!look_.panel || !shouldered) return;
    const double room = 2 * look_.panelGap;
    if (by <= look_.panelGap) return;
    say("That uses {} of the {} of play that {} has in its grooves: take {} off its edge there",
        fine(by), fine(room), piece_.label(*look_.panel), fine(by - look_.panelGap));
  }

  void rack() {
    const bool rises = shape_.rising > shape_.falling;
    const double longer = std::fmax(shape_.rising, shape_.falling);
    const double shorter = std::fmin(shape_.rising, shape_.falling);
    say("Racked: the top has gone {} to the {} over the height, {:.2f}° out of square. The long "
        "diagonal runs from the {} left to the {} right, {} longer than the other",
        fine(std::fabs(shape_.rack)), rises ? "right" : "left", std::fabs(shape_.rackAngle),
        rises ? "bottom" : "top", rises ? "top" : "bottom", fine(longer - shorter));
    say("Pull it square with a clamp across the long diagonal until both diagonals read {}",
        fine((longer + shorter) / 2));
    panelInRack();
  }

  /// A panel keeps its right angles: in a racked frame it takes up room in its grooves.
  void panelInRack() {
    if (!look_.panel || shape_.left <= 0) return;
    const PlacedPart& panel = piece_.parts[look_.panel->index()];
    const double high = std::fmax(panel.size.x, panel.size.y);
    const double taken = std::fabs(shape_.rack) * std::fmin(1, high / shape_.left);
    const double room = 2 * look_.panelGap;
    if (taken <= room) return;
    say("{} has {} of play in its grooves and the racking takes up {}: if the frame will not come "
        "square, the panel is holding it; take {} off the edge that binds",
        piece_.label(*look_.panel), fine(room), fine(taken), fine(taken - room));
  }

  const Piece& piece_;
  const FrameLook& look_;
  const FrameShape& shape_;
  Unit unit_;
  std::vector<std::string> said_;
};

}  // namespace

Result<FrameLook> frameOf(const Piece& piece, const std::vector<PartId>& parts) {
  if (parts.size() < 2) {
    return fail(ErrorCode::badMeasurement, "a frame needs at least two parts", {},
                "name a group, or its parts");
  }
  return Looker(piece, parts).look();
}

std::vector<std::string> adviceFor(const Piece& piece, const FrameLook& look,
                                   const FrameShape& shape, Unit unit) {
  return Adviser(piece, look, shape, unit).all();
}

}  // namespace dryfit::joinery

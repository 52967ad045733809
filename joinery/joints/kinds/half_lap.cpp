#include <array>
#include <cmath>

#include "joinery/joints/joint_numbers.h"
#include "joinery/joints/kinds/kinds.h"
#include "joinery/joints/kinds/parameters.h"
#include "joinery/piece/over_run.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

using kernel::Box3;
using kernel::Point3;
using kernel::Vec3;

/// Where two crossing parts share space, along the direction from the part under to the part over.
struct Lap {
  Vec3 up;                          ///< in the piece
  int overAxis = 0, underAxis = 0;  ///< the parts' own axes along `up`
  double bottom = 0, top = 0;       ///< of the shared wood along `up`, from the origin of the piece
  Box3 area;                        ///< round the shared wood, in the frame of the part over
};

/// The part's own axis along a direction of the piece, or none where it leans.
std::optional<int> axisAlong(const PlacedPart& part, Vec3 direction) {
  for (int axis = 0; axis < 3; ++axis) {
    if (part.frame.axis(axis).cross(direction).norm() < kernel::kParallel) return axis;
  }
  return std::nullopt;
}

Stretch along(const PlacedPart& part, Vec3 direction, int axis) {
  const double middle = (part.frame.place(part.blank().centre()) - Point3{}).dot(direction);
  return {middle - part.size[axis] / 2, middle + part.size[axis] / 2};
}

/// Across both lengths where the parts cross, across the thickness where they run in one line.
Vec3 lapDirection(const PlacedPart& over, const PlacedPart& under) {
  const Vec3 across = over.frame.x.cross(under.frame.x);
  return across.norm() > kernel::kCrossing ? across.unit() : over.frame.z;
}

/// Towards the side on which the part over shows: as named; else as the parts lie; else the front,
/// the top or the right of the piece.
Result<Vec3> upward(const JointContext& context, Vec3 direction, int overAxis, int underAxis) {
  const PlacedPart& over = context.mate(0);
  const auto word = faceWord(context, "over_face");
  if (!word) {
    const double higher =
        along(over, direction, overAxis).mid() - along(context.mate(1), direction, underAxis).mid();
    if (std::fabs(higher) > kernel::kContact) return higher > 0 ? direction : -direction;
  }
  const Axis axis = over.along[overAxis];
  const LocalFace face = over.local(word.value_or(faceOf(axis, axis != Axis::y)));
  if (face.axis != overAxis) {
    return fail(ErrorCode::faceUnfit, "neither part lies over the other on this side", "over_face",
                "name a face of the part on top that runs along both parts");
  }
  return over.frame.turn(face.outward());
}

Result<Lap> lapOf(const JointContext& context) {
  const PlacedPart& over = context.mate(0);
  const PlacedPart& under = context.mate(1);
  const Vec3 direction = lapDirection(over, under);
  const auto overAxis = axisAlong(over, direction);
  const auto underAxis = axisAlong(under, direction);
  if (!overAxis || !underAxis) {
    return fail(ErrorCode::matesAskew, "the parts cross at a slant", {},
                "make their faces parallel where they cross");
  }
  const auto up = upward(context, direction, *overAxis, *underAxis);
  if (!up) return tl::unexpected(up.error());
  const Stretch o = along(over, *up, *overAxis);
  const Stretch u = along(under, *up, *underAxis);
  const kernel::Frame toOver = over.frame.inverse().after(under.frame);
  const Lap lap{*up,
                *overAxis,
                *underAxis,
                std::fmax(o.lo, u.lo),
                std::fmin(o.hi, u.hi),
                kernel::boundsOf(toOver, under.blank()).common(over.blank())};
  if (!lap.area.grown(-kernel::kContact).empty() && lap.top - lap.bottom > kernel::kContact) {
    return lap;
  }
  return fail(ErrorCode::matesApart, "the parts do not overlap, so there is nothing to lap", {},
              "draw them crossing through each other");
}

/// One of the two parts, and its own axis along the direction of the lap.
struct Lapped {
  const PlacedPart& part;
  int axis;
};

/// What `mine` loses: all of it on the side of `toward` beyond the seam, as wide as `theirs` and
/// the play. `seam` is measured along `toward` from the origin of the piece.
Feature socket(JointId joint, const Lapped& mine, const Lapped& theirs, Vec3 toward, double seam,
               double fit) {
  const auto& [part, own] = mine;
  const auto& [other, axis] = theirs;
  Box3 box = other.blank().grown(fit / 2);
  const bool far = other.frame.axis(axis).dot(toward) > 0;
  const double origin = (other.frame.origin - Point3{}).dot(toward);
  const double face = along(part, toward, own).hi + kOverRun;
  box.min.set(axis, far ? seam - origin : origin - face);
  box.max.set(axis, far ? face - origin : origin - seam);
  const kernel::Frame toPart = part.frame.inverse().after(other.frame);
  Feature feature{part.id,
                  joint,
                  Purpose::lapSocket,
                  Stage::cut,
                  kernel::placed(kernel::Block{box, {}}, toPart),
                  kernel::boundsOf(toPart, box).common(part.blank()),
                  {own, part.frame.axis(own).dot(toward) > 0}};
  auto& block = std::get<kernel::Block>(feature.tool);
  if (block.frame == kernel::Frame{}) block.box = overRun(block.box, part.blank());
  return feature;
}

/// Two parts that cross or meet in one plane, each cut away where the other lies.
class HalfLap final : public JointKind {
 public:
  [[nodiscard]] std::string_view name() const override { return "half-lap"; }
  [[nodiscard]] std::span<const Role> roles() const override {
    static constexpr std::array<Role, 2> kRoles{{{"over"}, {"under"}}};
    return kRoles;
  }
  [[nodiscard]] std::span<const Parameter> parameters() const override {
    static const std::vector<Parameter> list = {
        lengthParameter("depth", "wood taken from the part on top"), fitParameter(),
        faceParameter("over_face", "side on which the part on top shows")};
    return list;
  }
  [[nodiscard]] Result<JointCut> cut(const JointContext& context) const override;
};

Result<JointCut> HalfLap::cut(const JointContext& context) const {
  const PlacedPart& over = context.mate(0);
  const PlacedPart& under = context.mate(1);
  const auto lap = lapOf(context);
  if (!lap) return tl::unexpected(lap.error());
  JointNumbers numbers(context);
  const double shared = lap->top - lap->bottom;
  const auto depth =
      numbers.positive("depth", shareBy(RuleId::lapDepthShare) * shared, RuleId::lapDepthShare);
  if (!depth) return tl::unexpected(depth.error());
  if (*depth >= shared - kernel::kContact) {
    return fail(ErrorCode::jointLeavesNothing, "the lap leaves nothing of the part underneath",
                "depth", "give less than the thickness the two share");
  }
  numbers.record("depth under", shared - *depth, false, RuleId::lapDepthShare);
  const double fit =
      numbers.length("fit", lengthBy(RuleId::glueClearance).mm(), RuleId::glueClearance);

  const double seam = lap->bottom + *depth;
  JointCut cut;
  const Lapped overLap{over, lap->overAxis}, underLap{under, lap->underAxis};
  cut.features.push_back(socket(context.id(), overLap, underLap, -lap->up, -seam, fit));
  cut.features.push_back(socket(context.id(), underLap, overLap, lap->up, seam, fit));
  cut.joint.id = context.id();
  cut.joint.mates = {over.id, under.id};
  cut.joint.homeDirection = -lap->up;
  cut.joint.at = over.frame.place(lap->area.centre());
  setFit(cut.joint, FitClass::glued, fit);
  cut.joint.values = numbers.take();
  return cut;
}

}  // namespace

std::unique_ptr<const JointKind> makeHalfLap() {
  return std::make_unique<HalfLap>();
}

}  // namespace dryfit::joinery

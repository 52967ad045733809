#include <array>
#include <cmath>
#include <utility>

#include "joinery/joints/joint_numbers.h"
#include "joinery/joints/kinds/kinds.h"
#include "joinery/joints/kinds/panel_edges.h"
#include "joinery/joints/kinds/parameters.h"
#include "joinery/piece/over_run.h"

namespace dryfit::joinery {
namespace {

/// To which side of the inset's thickness the rebate in a member is open: the named face of the
/// member, or its face nearest to the inset.
Result<bool> opensFar(const JointContext& context, const Mating& member) {
  const int across = member.axisOfSecond(2);
  const kernel::Vec3 along = member.toSecond().turn({0, 0, 1});
  const bool sameWay = along[across] > 0;
  if (const auto word = faceWord(context, "open_face")) {
    const LocalFace face = member.second().local(*word);
    if (face.axis == across) return face.far == sameWay;
    return fail(ErrorCode::faceUnfit, "a rebate cannot be open to this face", "open_face",
                "name a face parallel to the inset's faces");
  }
  const auto toFace = [&](bool far) {
    kernel::Point3 p = member.contact().area.centre();
    p.z = far ? member.first().size.z : 0;
    const double at = member.toSecond().place(p)[across];
    return std::fabs(far == sameWay ? member.second().size[across] - at : at);
  };
  return toFace(true) <= toFace(false);
}

/// A board let into rebates along the edges of its neighbours.
class Rebate final : public JointKind {
 public:
  [[nodiscard]] std::string_view name() const override { return "rebate"; }
  [[nodiscard]] std::span<const Role> roles() const override {
    static constexpr std::array<Role, 2> kRoles{{{"inset"}, {"rebated", true}}};
    return kRoles;
  }
  [[nodiscard]] std::span<const Parameter> parameters() const override {
    static const std::vector<Parameter> list = {
        lengthParameter("depth", "how far the inset board goes into the rebated one"),
        lengthParameter("gap", "room beyond the edge of the inset board"),
        faceParameter("open_face", "face of the rebated part to which the rebate is open")};
    return list;
  }
  [[nodiscard]] Result<JointCut> cut(const JointContext& context) const override;
};

Result<JointCut> Rebate::cut(const JointContext& context) const {
  const auto edges = PanelEdges::of(context);
  if (!edges) return tl::unexpected(edges.error());
  JointNumbers numbers(context);
  // Held on one side only it is pushed home against the rebate; between two it must drop in.
  const double play = edges->liesBetween() ? lengthBy(RuleId::rebateGap).mm() : 0;
  const double deepest =
      context.shop.setOut(shareBy(RuleId::rebateDepthShare) * edges->leastDepth());
  const auto gap = numbers.notNegative("gap", play, RuleId::rebateGap);
  if (!gap) return tl::unexpected(gap.error());
  const auto depth = numbers.positive("depth", deepest - *gap, RuleId::rebateDepthShare);
  if (!depth) return tl::unexpected(depth.error());

  JointCut cut;
  const Stretch thickness{0, edges->panel().size.z};
  cut.features = edges->standing(context.id(), thickness, *depth);
  cut.joint = edges->placed(context);
  for (const Mating& member : edges->members()) {
    const auto openFar = opensFar(context, member);
    if (!openFar) return tl::unexpected(openFar.error());
    Openings openings;
    openings.side[2][*openFar ? 1 : 0] = true;
    const Insert room = edges->room(member, thickness, *depth, *gap);
    Feature rebate = member.pocket(context.id(), Purpose::rebate, room, openings);
    const int along = member.axisOfSecond(member.alongAxis());
    rebate.run = along;
    rebate.stopped = !runsOut(rebate.extent, member.second().blank(), along);
    cut.features.push_back(std::move(rebate));
    // The inset drops in from the open side.
    cut.joint.homeDirection = edges->panel().frame.turn({0, 0, *openFar ? -1.0 : 1.0});
  }
  cut.joint.values = numbers.take();
  return cut;
}

}  // namespace

std::unique_ptr<const JointKind> makeRebate() {
  return std::make_unique<Rebate>();
}

}  // namespace dryfit::joinery

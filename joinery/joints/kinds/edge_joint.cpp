#include <array>

#include "joinery/joints/joint_numbers.h"
#include "joinery/joints/kinds/kinds.h"
#include "joinery/joints/kinds/parameters.h"

namespace dryfit::joinery {
namespace {

/// Two edges planed true and glued.
class EdgeJoint final : public JointKind {
 public:
  [[nodiscard]] std::string_view name() const override { return "edge-joint"; }
  [[nodiscard]] std::span<const Role> roles() const override {
    static constexpr std::array<Role, 2> kRoles{{{"first"}, {"second"}}};
    return kRoles;
  }
  [[nodiscard]] std::span<const Parameter> parameters() const override {
    static const std::vector<Parameter> list = {meetingFace()};
    return list;
  }
  [[nodiscard]] Result<JointCut> cut(const JointContext& context) const override;
};

Result<JointCut> EdgeJoint::cut(const JointContext& context) const {
  const auto mating = Mating::of(context.mate(0), context.mate(1), faceWord(context, "face"));
  if (!mating) return tl::unexpected(mating.error());
  JointCut cut;
  cut.joint = placedJoint(context, *mating, FitClass::none, 0);
  // Faces that are not parallel touch along a line at best: the open side is the gap.
  cut.joint.gap = mating->reachOf({mating->area(0), mating->area(1), mating->area(2)}).hi;
  cut.joint.glued = true;
  return cut;
}

}  // namespace

std::unique_ptr<const JointKind> makeEdgeJoint() {
  return std::make_unique<EdgeJoint>();
}

}  // namespace dryfit::joinery

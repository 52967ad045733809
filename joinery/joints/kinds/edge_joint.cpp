#include <array>

#include "joinery/joints/kinds/faces_meet.h"
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
  return meetByFaces(context, true);
}

}  // namespace

std::unique_ptr<const JointKind> makeEdgeJoint() {
  return std::make_unique<EdgeJoint>();
}

}  // namespace dryfit::joinery

#include <array>

#include "joinery/joints/kinds/faces_meet.h"
#include "joinery/joints/kinds/kinds.h"
#include "joinery/joints/kinds/parameters.h"

namespace dryfit::joinery {
namespace {

/// Two parts that only touch.
class Butt final : public JointKind {
 public:
  [[nodiscard]] std::string_view name() const override { return "butt"; }
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

Result<JointCut> Butt::cut(const JointContext& context) const {
  return meetByFaces(context, false);
}

}  // namespace

std::unique_ptr<const JointKind> makeButt() {
  return std::make_unique<Butt>();
}

}  // namespace dryfit::joinery

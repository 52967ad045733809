#include <array>

#include "joinery/joints/kinds.h"
#include "joinery/joints/parameters.h"

namespace dryfit::joinery {
namespace {

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

Result<JointCut> Rebate::cut(const JointContext&) const {
  return fail(ErrorCode::badJoint, "this kind of joint cannot be cut yet");
}

}  // namespace

std::unique_ptr<const JointKind> makeRebate() {
  return std::make_unique<Rebate>();
}

}  // namespace dryfit::joinery

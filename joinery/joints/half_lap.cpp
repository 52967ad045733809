#include <array>

#include "joinery/joints/kinds.h"
#include "joinery/joints/parameters.h"

namespace dryfit::joinery {
namespace {

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
        lengthParameter("depth", "wood taken from the part that lies over"), fitParameter(),
        faceParameter("over_face", "side to which the part that lies over shows")};
    return list;
  }
  [[nodiscard]] Result<JointCut> cut(const JointContext& context) const override;
};

Result<JointCut> HalfLap::cut(const JointContext&) const {
  return fail(ErrorCode::badJoint, "this kind of joint cannot be cut yet");
}

}  // namespace

std::unique_ptr<const JointKind> makeHalfLap() {
  return std::make_unique<HalfLap>();
}

}  // namespace dryfit::joinery

#include <array>

#include "joinery/joints/kinds.h"
#include "joinery/joints/parameters.h"

namespace dryfit::joinery {
namespace {

/// A tenon of full width standing in a groove, in line with a panel's groove.
class StubTenonGroove final : public JointKind {
 public:
  [[nodiscard]] std::string_view name() const override { return "stub-tenon-groove"; }
  [[nodiscard]] std::span<const Role> roles() const override {
    static constexpr std::array<Role, 2> kRoles{{{"tenon"}, {"groove"}}};
    return kRoles;
  }
  [[nodiscard]] std::span<const Parameter> parameters() const override {
    static const std::vector<Parameter> list = {
        meetingFace(),
        lengthParameter("tenon_thickness", "width of the groove"),
        lengthParameter("tenon_length", "how far the tenon stands out of its shoulder"),
        lengthParameter("offset", "of the tenon's middle across the thickness, to the far side"),
        fitParameter(),
        bottomClearanceParameter()};
    return list;
  }
  [[nodiscard]] Result<JointCut> cut(const JointContext& context) const override;
};

Result<JointCut> StubTenonGroove::cut(const JointContext&) const {
  return fail(ErrorCode::badJoint, "this kind of joint cannot be cut yet");
}

}  // namespace

std::unique_ptr<const JointKind> makeStubTenonGroove() {
  return std::make_unique<StubTenonGroove>();
}

}  // namespace dryfit::joinery

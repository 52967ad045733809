#include <array>

#include "joinery/joints/kinds.h"
#include "joinery/joints/parameters.h"

namespace dryfit::joinery {
namespace {

/// A tongue along an edge in a groove along the other.
class TongueGroove final : public JointKind {
 public:
  [[nodiscard]] std::string_view name() const override { return "tongue-groove"; }
  [[nodiscard]] std::span<const Role> roles() const override {
    static constexpr std::array<Role, 2> kRoles{{{"tongue"}, {"groove"}}};
    return kRoles;
  }
  [[nodiscard]] std::span<const Parameter> parameters() const override {
    static const std::vector<Parameter> list = {
        meetingFace(),
        lengthParameter("tongue_thickness", "width of the groove and of its cutter"),
        lengthParameter("tongue_length", "how far the tongue stands out"),
        lengthParameter("offset", "of the tongue's middle across the thickness, to the far side"),
        fitParameter(),
        bottomClearanceParameter()};
    return list;
  }
  [[nodiscard]] Result<JointCut> cut(const JointContext& context) const override;
};

Result<JointCut> TongueGroove::cut(const JointContext&) const {
  return fail(ErrorCode::badJoint, "this kind of joint cannot be cut yet");
}

}  // namespace

std::unique_ptr<const JointKind> makeTongueGroove() {
  return std::make_unique<TongueGroove>();
}

}  // namespace dryfit::joinery

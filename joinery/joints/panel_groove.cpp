#include <array>

#include "joinery/joints/kinds.h"
#include "joinery/joints/parameters.h"

namespace dryfit::joinery {
namespace {

/// A panel that lies loose in grooves of its frame.
class PanelGroove final : public JointKind {
 public:
  [[nodiscard]] std::string_view name() const override { return "panel-groove"; }
  [[nodiscard]] std::span<const Role> roles() const override {
    static constexpr std::array<Role, 2> kRoles{{{"panel"}, {"frame", true}}};
    return kRoles;
  }
  [[nodiscard]] std::span<const Parameter> parameters() const override {
    static const std::vector<Parameter> list = {
        lengthParameter("groove_width", "width of the groove"),
        lengthParameter("groove_depth", "depth of the groove from the face of the member"),
        lengthParameter("tongue_thickness", "thickness to which the panel's edge is worked"),
        lengthParameter("gap", "room between the panel's edge and the bottom of the groove"),
        fitParameter(),
        lengthParameter("offset",
                        "of the groove's middle from the panel's middle, to the far side")};
    return list;
  }
  [[nodiscard]] Result<JointCut> cut(const JointContext& context) const override;
};

Result<JointCut> PanelGroove::cut(const JointContext&) const {
  return fail(ErrorCode::badJoint, "this kind of joint cannot be cut yet");
}

}  // namespace

std::unique_ptr<const JointKind> makePanelGroove() {
  return std::make_unique<PanelGroove>();
}

}  // namespace dryfit::joinery

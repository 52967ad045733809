#include <array>

#include "joinery/joints/kinds/housing.h"
#include "joinery/joints/kinds/kinds.h"
#include "joinery/joints/kinds/parameters.h"

namespace dryfit::joinery {
namespace {

/// A housing that stops short of one edge, with the board notched round it.
class StoppedHousing final : public JointKind {
 public:
  [[nodiscard]] std::string_view name() const override { return "stopped-housing"; }
  [[nodiscard]] std::span<const Role> roles() const override {
    static constexpr std::array<Role, 2> kRoles{{{"shelf"}, {"side"}}};
    return kRoles;
  }
  [[nodiscard]] std::span<const Parameter> parameters() const override {
    static const std::vector<Parameter> list = {
        meetingFace(), lengthParameter("depth", "depth of the housing"), fitParameter(),
        lengthParameter("stop", "setback of the housing from the shelf's edge"),
        faceParameter("stop_face", "side on which the housing stops")};
    return list;
  }
  [[nodiscard]] Result<JointCut> cut(const JointContext& context) const override;
};

Result<JointCut> StoppedHousing::cut(const JointContext& context) const {
  return cutHousing(context, true);
}

}  // namespace

std::unique_ptr<const JointKind> makeStoppedHousing() {
  return std::make_unique<StoppedHousing>();
}

}  // namespace dryfit::joinery

#include <array>

#include "joinery/joints/kinds/housing.h"
#include "joinery/joints/kinds/kinds.h"
#include "joinery/joints/kinds/parameters.h"

namespace dryfit::joinery {
namespace {

/// A board's end standing in a housing that runs right across its side.
class ThroughHousing final : public JointKind {
 public:
  [[nodiscard]] std::string_view name() const override { return "through-housing"; }
  [[nodiscard]] std::span<const Role> roles() const override {
    static constexpr std::array<Role, 2> kRoles{{{"shelf"}, {"side"}}};
    return kRoles;
  }
  [[nodiscard]] std::span<const Parameter> parameters() const override {
    static const std::vector<Parameter> list = {
        meetingFace(), lengthParameter("depth", "depth of the housing"), fitParameter()};
    return list;
  }
  [[nodiscard]] Result<JointCut> cut(const JointContext& context) const override;
};

Result<JointCut> ThroughHousing::cut(const JointContext& context) const {
  return cutHousing(context, false);
}

}  // namespace

std::unique_ptr<const JointKind> makeThroughHousing() {
  return std::make_unique<ThroughHousing>();
}

}  // namespace dryfit::joinery

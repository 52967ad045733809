#include <array>

#include "joinery/joints/kinds/kinds.h"
#include "joinery/joints/kinds/mortise_tenon.h"
#include "joinery/joints/kinds/parameters.h"

namespace dryfit::joinery {
namespace {

/// A tenon that comes out on the far side of the mortised part.
class ThroughMortiseTenon final : public JointKind {
 public:
  [[nodiscard]] std::string_view name() const override { return "through-mortise-tenon"; }
  [[nodiscard]] std::span<const Role> roles() const override {
    static constexpr std::array<Role, 2> kRoles{{{"tenon"}, {"mortise"}}};
    return kRoles;
  }
  [[nodiscard]] std::span<const Parameter> parameters() const override {
    static const std::vector<Parameter> list =
        joined(tenonParameters(),
               {lengthParameter("protrusion", "how far the tenon stands proud on the far side")});
    return list;
  }
  [[nodiscard]] Result<JointCut> cut(const JointContext& context) const override;
};

Result<JointCut> ThroughMortiseTenon::cut(const JointContext& context) const {
  return cutMortiseTenon(context, TenonStyle::through);
}

}  // namespace

std::unique_ptr<const JointKind> makeThroughMortiseTenon() {
  return std::make_unique<ThroughMortiseTenon>();
}

}  // namespace dryfit::joinery

#include <array>

#include "joinery/joints/kinds/kinds.h"
#include "joinery/joints/kinds/mortise_tenon.h"
#include "joinery/joints/kinds/parameters.h"

namespace dryfit::joinery {
namespace {

/// A tenon that ends inside the mortised part.
class BlindMortiseTenon final : public JointKind {
 public:
  [[nodiscard]] std::string_view name() const override { return "blind-mortise-tenon"; }
  [[nodiscard]] std::span<const Role> roles() const override {
    static constexpr std::array<Role, 2> kRoles{{{"tenon"}, {"mortise"}}};
    return kRoles;
  }
  [[nodiscard]] std::span<const Parameter> parameters() const override {
    static const std::vector<Parameter> list = tenonParameters();
    return list;
  }
  [[nodiscard]] Result<JointCut> cut(const JointContext& context) const override;
};

Result<JointCut> BlindMortiseTenon::cut(const JointContext& context) const {
  return cutMortiseTenon(context, TenonStyle::blind);
}

}  // namespace

std::unique_ptr<const JointKind> makeBlindMortiseTenon() {
  return std::make_unique<BlindMortiseTenon>();
}

}  // namespace dryfit::joinery

#include <array>

#include "joinery/joints/kinds/kinds.h"
#include "joinery/joints/kinds/mortise_tenon.h"
#include "joinery/joints/kinds/parameters.h"

namespace dryfit::joinery {
namespace {

/// A tenon at a corner, with a short haunch that keeps the rail from twisting.
class HaunchedMortiseTenon final : public JointKind {
 public:
  [[nodiscard]] std::string_view name() const override { return "haunched-mortise-tenon"; }
  [[nodiscard]] std::span<const Role> roles() const override {
    static constexpr std::array<Role, 2> kRoles{{{"tenon"}, {"mortise"}}};
    return kRoles;
  }
  [[nodiscard]] std::span<const Parameter> parameters() const override {
    static const std::vector<Parameter> list =
        joined(tenonParameters(),
               {faceParameter("haunch", "side of the tenoned part that has the haunch"),
                lengthParameter("haunch_width", "width of the haunch, from the tenon to the side"),
                lengthParameter("haunch_length", "length of the haunch from the shoulder")});
    return list;
  }
  [[nodiscard]] Result<JointCut> cut(const JointContext& context) const override;
};

Result<JointCut> HaunchedMortiseTenon::cut(const JointContext& context) const {
  return cutMortiseTenon(context, TenonStyle::haunched);
}

}  // namespace

std::unique_ptr<const JointKind> makeHaunchedMortiseTenon() {
  return std::make_unique<HaunchedMortiseTenon>();
}

}  // namespace dryfit::joinery

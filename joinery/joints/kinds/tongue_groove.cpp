#include <array>
#include <cmath>

#include "joinery/joints/joint_numbers.h"
#include "joinery/joints/kinds/full_tongue.h"
#include "joinery/joints/kinds/kinds.h"
#include "joinery/joints/kinds/parameters.h"

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
        lengthParameter("tongue_length", "length of the tongue"),
        lengthParameter("offset",
                        "of the tongue from the middle of the thickness, toward the far side"),
        fitParameter(),
        bottomClearanceParameter()};
    return list;
  }
  [[nodiscard]] Result<JointCut> cut(const JointContext& context) const override;
};

Result<JointCut> TongueGroove::cut(const JointContext& context) const {
  const auto mating = Mating::of(context.mate(0), context.mate(1), faceWord(context, "face"));
  if (!mating) return tl::unexpected(mating.error());
  JointNumbers numbers(context);
  const int along = mating->alongAxis();
  const int across = mating->thicknessAxis();
  const double stock = std::fmin(mating->blank(across).size(), mating->area(across).size());

  const double byShare = context.shop.cutterNear(shareBy(RuleId::tongueThicknessShare) * stock,
                                                 shareBy(RuleId::tenonThicknessShareMost) * stock);
  const auto thickness =
      numbers.positive("tongue_thickness", byShare, RuleId::tongueThicknessShare);
  if (!thickness) return tl::unexpected(thickness.error());
  const auto nominal = acrossThickness(context, *mating, *thickness);
  if (!nominal) return tl::unexpected(nominal.error());
  const auto length = numbers.positive(
      "tongue_length", context.shop.setOut(shareBy(RuleId::tongueLengthThicknesses) * *thickness),
      RuleId::tongueLengthThicknesses);
  if (!length) return tl::unexpected(length.error());
  const auto clearance =
      numbers.notNegative("bottom_clearance", lengthBy(RuleId::tongueBottomClearance).mm(),
                          RuleId::tongueBottomClearance);
  if (!clearance) return tl::unexpected(clearance.error());

  const auto halves = fullTongue(*mating, *nominal, *length, *clearance, numbers);
  if (!halves) return tl::unexpected(halves.error());
  Openings openings;
  openings.side[along] = {true, true};
  JointCut cut = cutFullTongue(context, *mating, *halves, Purpose::tongue, openings);
  const double shoulder = mating->reachOf(halves->tongue.section).mid();
  numbers.record("groove depth", halves->room.reach - shoulder, false);
  cut.joint.values = numbers.take();
  return cut;
}

}  // namespace

std::unique_ptr<const JointKind> makeTongueGroove() {
  return std::make_unique<TongueGroove>();
}

}  // namespace dryfit::joinery

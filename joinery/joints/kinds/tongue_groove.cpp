#include <array>

#include "joinery/joints/joint_numbers.h"
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
  const int across = mating->thicknessAxis();
  const int along = mating->alongAxis();
  const Stretch blank = mating->blank(across);

  const double byShare = nearestCutter(rule(RuleId::tongueThicknessShare).value * blank.size(),
                                       rule(RuleId::tenonThicknessShareMost).value * blank.size());
  const auto thickness =
      numbers.positive("tongue_thickness", byShare, RuleId::tongueThicknessShare);
  if (!thickness) return tl::unexpected(thickness.error());
  const auto nominal = acrossThickness(context, *mating, *thickness);
  if (!nominal) return tl::unexpected(nominal.error());
  const auto length = numbers.positive(
      "tongue_length", setOut(rule(RuleId::tongueLengthThicknesses).value * *thickness),
      RuleId::tongueLengthThicknesses);
  if (!length) return tl::unexpected(length.error());
  const auto clearance = numbers.notNegative(
      "bottom_clearance", rule(RuleId::tongueBottomClearance).value, RuleId::tongueBottomClearance);
  if (!clearance) return tl::unexpected(clearance.error());
  const double fit =
      numbers.length("fit", rule(RuleId::glueClearance).value, RuleId::glueClearance);

  const auto cheeks = cheeksOf(*nominal, blank, fit);
  if (!cheeks) return tl::unexpected(cheeks.error());
  Insert tongue;
  tongue.section[across] = cheeks->insert;
  tongue.section[along] = mating->blank(along);
  tongue.reach = *length;
  if (!mating->contact().square) tongue.reach += mating->reachOf(tongue.section).mid();
  if (auto in = entersAllRound(*mating, tongue); !in) return tl::unexpected(in.error());
  Insert room = tongue;
  room.section[across] = cheeks->pocket;
  room.reach += *clearance;
  Openings openings;
  openings.side[along] = {true, true};

  JointCut cut;
  cut.features = mating->shoulderFit(context.id());
  cut.features.push_back(mating->standing(context.id(), Purpose::tongue, tongue));
  cut.features.push_back(mating->pocket(context.id(), Purpose::groove, room, openings));
  numbers.record("groove depth", room.reach - mating->reachOf(tongue.section).mid(), false);
  cut.joint = placedJoint(context, *mating, FitClass::glued, fit);
  cut.joint.values = numbers.take();
  return cut;
}

}  // namespace

std::unique_ptr<const JointKind> makeTongueGroove() {
  return std::make_unique<TongueGroove>();
}

}  // namespace dryfit::joinery

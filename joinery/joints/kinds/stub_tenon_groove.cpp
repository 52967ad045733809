#include <array>
#include <cmath>

#include "joinery/joints/joint_numbers.h"
#include "joinery/joints/kinds/full_tongue.h"
#include "joinery/joints/kinds/kinds.h"
#include "joinery/joints/kinds/panel_line.h"
#include "joinery/joints/kinds/parameters.h"
#include "joinery/piece/over_run.h"

namespace dryfit::joinery {
namespace {

double grooveWidthFor(const JointContext& context, double thickness) {
  return context.shop.cutterNear(shareBy(RuleId::grooveWidthShare) * thickness,
                                 shareBy(RuleId::grooveWidthShareMost) * thickness);
}

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
        lengthParameter("tenon_length", "length of the tenon from its shoulder"),
        lengthParameter("offset",
                        "of the tenon from the middle of the thickness, toward the far side"),
        fitParameter(),
        bottomClearanceParameter()};
    return list;
  }
  [[nodiscard]] Result<JointCut> cut(const JointContext& context) const override;
};

Result<JointCut> StubTenonGroove::cut(const JointContext& context) const {
  const auto mating = Mating::of(context.mate(0), context.mate(1), faceWord(context, "face"));
  if (!mating) return tl::unexpected(mating.error());
  JointNumbers numbers(context);
  const int across = mating->thicknessAxis();
  const int along = mating->alongAxis();
  const Stretch blank = mating->blank(across);
  const auto line = panelLine(context, *mating);

  const double thick =
      line ? line->across.size()
           : grooveWidthFor(context, std::fmin(blank.size(), mating->area(across).size()));
  const auto thickness = numbers.positive("tenon_thickness", thick, RuleId::grooveWidthShare);
  if (!thickness) return tl::unexpected(thickness.error());
  auto nominal = acrossThickness(context, *mating, *thickness);
  if (line && !context.given("offset")) {
    nominal = Stretch{line->across.mid() - *thickness / 2, line->across.mid() + *thickness / 2};
  }
  if (!nominal) return tl::unexpected(nominal.error());
  const double sign = farSign(mating->first(), across);
  numbers.record("offset", (nominal->mid() - blank.mid()) * sign,
                 context.given("offset").has_value());
  const auto clearance =
      numbers.notNegative("bottom_clearance", lengthBy(RuleId::mortiseBottomClearance).mm(),
                          RuleId::mortiseBottomClearance);
  if (!clearance) return tl::unexpected(clearance.error());
  const double depth =
      line ? line->depth : context.shop.setOut(shareBy(RuleId::grooveDepthWidths) * *thickness);
  const auto length =
      numbers.positive("tenon_length", depth - *clearance, RuleId::grooveDepthWidths);
  if (!length) return tl::unexpected(length.error());

  const auto halves = fullTongue(*mating, *nominal, *length, *clearance, numbers);
  if (!halves) return tl::unexpected(halves.error());
  JointCut cut = cutFullTongue(context, *mating, *halves, Purpose::tenon, {});
  Feature& groove = cut.features.back();
  groove.stopped = !runsOut(groove.extent, mating->second().blank(), mating->axisOfSecond(along));
  numbers.record("groove depth", groove.extent.size()[groove.face.axis], false);
  cut.joint.values = numbers.take();
  return cut;
}

}  // namespace

std::unique_ptr<const JointKind> makeStubTenonGroove() {
  return std::make_unique<StubTenonGroove>();
}

}  // namespace dryfit::joinery

#include <array>
#include <cmath>
#include <utility>

#include "joinery/joints/joint_numbers.h"
#include "joinery/joints/kinds/kinds.h"
#include "joinery/joints/kinds/parameters.h"
#include "joinery/joints/panel_grooves.h"
#include "joinery/piece/over_run.h"

namespace dryfit::joinery {
namespace {

/// A panel's groove as the tenon meets it.
struct PanelLine {
  Stretch across;    ///< of the tenoned part's thickness
  double depth = 0;  ///< from the face of the grooved part
};

/// The panel groove in the face that the tenon meets, where there is one.
std::optional<PanelLine> panelLine(const JointContext& context, const Mating& mating) {
  for (const Feature& groove : panelGroovesIn(context, mating.second().id)) {
    if (groove.face != mating.contact().otherFace) continue;
    const kernel::Box3 here = kernel::boundsOf(mating.toFirst(), groove.extent);
    const int across = mating.thicknessAxis();
    return PanelLine{{here.min[across], here.max[across]}, groove.extent.size()[groove.face.axis]};
  }
  return std::nullopt;
}

double grooveWidthFor(double thickness) {
  return nearestCutter(rule(RuleId::grooveWidthShare).value * thickness,
                       rule(RuleId::grooveWidthShareMost).value * thickness);
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

  const double thick = line ? line->across.size() : grooveWidthFor(blank.size());
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
      numbers.notNegative("bottom_clearance", rule(RuleId::mortiseBottomClearance).value,
                          RuleId::mortiseBottomClearance);
  if (!clearance) return tl::unexpected(clearance.error());
  const double depth =
      line ? line->depth : setOut(rule(RuleId::grooveDepthWidths).value * *thickness);
  const auto length =
      numbers.positive("tenon_length", depth - *clearance, RuleId::grooveDepthWidths);
  if (!length) return tl::unexpected(length.error());
  const double fit =
      numbers.length("fit", rule(RuleId::glueClearance).value, RuleId::glueClearance);

  const auto cheeks = cheeksOf(*nominal, blank, fit);
  if (!cheeks) return tl::unexpected(cheeks.error());
  Insert tenon;
  tenon.section[across] = cheeks->insert;
  tenon.section[along] = mating->blank(along);
  tenon.reach = *length;
  if (!mating->contact().square) tenon.reach += mating->reachOf(tenon.section).mid();
  if (auto in = entersAllRound(*mating, tenon); !in) return tl::unexpected(in.error());
  Insert room = tenon;
  room.section[across] = cheeks->pocket;
  room.reach += *clearance;

  JointCut cut;
  cut.features = mating->shoulderFit(context.id());
  cut.features.push_back(mating->standing(context.id(), Purpose::tenon, tenon));
  Feature groove = mating->pocket(context.id(), Purpose::groove, room);
  groove.stopped = !runsOut(groove.extent, mating->second().blank(), mating->axisOfSecond(along));
  numbers.record("groove depth", groove.extent.size()[groove.face.axis], false);
  cut.features.push_back(std::move(groove));
  cut.joint = placedJoint(context, *mating, FitClass::glued, fit);
  cut.joint.values = numbers.take();
  return cut;
}

}  // namespace

std::unique_ptr<const JointKind> makeStubTenonGroove() {
  return std::make_unique<StubTenonGroove>();
}

}  // namespace dryfit::joinery

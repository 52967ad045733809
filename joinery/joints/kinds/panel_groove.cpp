#include <array>
#include <cmath>
#include <utility>

#include "joinery/joints/joint_numbers.h"
#include "joinery/joints/kinds/kinds.h"
#include "joinery/joints/kinds/panel_edges.h"
#include "joinery/joints/kinds/parameters.h"
#include "joinery/piece/over_run.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

/// The panel's edge and its groove, across the panel's thickness.
struct Line {
  Stretch tongue, groove;
};

/// How thick the panel's edge is: as the author says; else the panel itself, unless it is so thick
/// that its edge is worked down to a tongue.
double tongueFor(const JointContext& context, const PanelEdges& edges, double fit) {
  const double panel = edges.panel().size.z;
  if (const auto tongue = context.given("tongue_thickness")) return *tongue;
  if (const auto width = context.given("groove_width")) {
    const bool worked = panel - (*width - fit) >= lengthBy(RuleId::panelShoulderLeast).mm();
    return worked ? *width - fit : panel;
  }
  const double member = edges.leastThickness();
  const double most = shareBy(RuleId::grooveWidthShareMost) * member;
  if (panel + fit <= most + kernel::kContact) return panel;
  return context.shop.cutterNear(shareBy(RuleId::grooveWidthShare) * member, most) - fit;
}

Result<Line> lineOf(const JointContext& context, const PanelEdges& edges, JointNumbers& numbers) {
  const double panel = edges.panel().size.z;
  const double fit = context.given("fit").value_or(lengthBy(RuleId::slidingClearance).mm());
  const double tongue = tongueFor(context, edges, fit);
  if (tongue <= kernel::kContact || tongue > panel + kernel::kContact) {
    return fail(ErrorCode::jointOutgrowsPart,
                "the tongue is not between 0 and the panel's thickness", "tongue_thickness");
  }
  const auto given = context.given("groove_width");
  const double width = given.value_or(tongue + fit);
  if (width <= kernel::kContact) {
    return fail(ErrorCode::numberTooSmall, "the groove has no width", "groove_width",
                "give a length above 0");
  }
  if (given && context.given("fit") && context.given("tongue_thickness") &&
      std::fabs(width - tongue - fit) > kernel::kContact) {
    return fail(ErrorCode::numbersDisagree, "groove width, tongue thickness and fit do not agree",
                "fit", "give two of the three");
  }
  const double offset = context.given("offset").value_or(0);
  const double middle = panel / 2 + offset * farSign(edges.panel(), 2);
  const Line line{{middle - tongue / 2, middle + tongue / 2},
                  {middle - width / 2, middle + width / 2}};
  if (line.tongue.lo < -kernel::kContact || line.tongue.hi > panel + kernel::kContact) {
    return fail(ErrorCode::jointOutgrowsPart, "the tongue is not within the panel's thickness",
                "offset", "make the tongue thinner, or move it inside");
  }
  numbers.record("groove width", width, given.has_value(), RuleId::slidingClearance);
  numbers.record("tongue thickness", tongue, context.given("tongue_thickness").has_value(),
                 RuleId::grooveWidthShare);
  numbers.record("fit", width - tongue, context.given("fit").has_value(), RuleId::slidingClearance);
  numbers.record("offset", offset, context.given("offset").has_value());
  return line;
}

/// How far the field of a panel whose edge is worked to a tongue stays away from the frame: it must
/// swell as much as its edge may in the groove.
Result<double> setBackOf(const PanelEdges& edges, const Line& line, double gap,
                         JointNumbers& numbers) {
  const kernel::Vec3 size = edges.panel().size;
  if (size.z - line.tongue.size() <= kernel::kContact) return 0;
  auto setBack = numbers.notNegative("shoulder_gap", gap, RuleId::panelGap);
  if (!setBack) return setBack;
  if (2 * *setBack >= std::fmin(size.x, size.y) - kernel::kContact) {
    return fail(ErrorCode::jointLeavesNothing, "the shoulder gap leaves nothing of the panel",
                "shoulder_gap", "give less than half of the panel's width");
  }
  return setBack;
}

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
        lengthParameter("shoulder_gap",
                        "room between the frame and the shoulder of a panel's worked edge"),
        fitParameter(),
        lengthParameter("offset",
                        "of the groove from the middle of the panel, toward the far side")};
    return list;
  }
  [[nodiscard]] bool leadsOthers() const override { return true; }
  [[nodiscard]] Result<JointCut> cut(const JointContext& context) const override;
};

Result<JointCut> PanelGroove::cut(const JointContext& context) const {
  const auto edges = PanelEdges::of(context);
  if (!edges) return tl::unexpected(edges.error());
  JointNumbers numbers(context);
  const auto line = lineOf(context, *edges, numbers);
  if (!line) return tl::unexpected(line.error());
  const double deepest = shareBy(RuleId::grooveDepthShareMost) * edges->leastDepth();
  const double byWidth = shareBy(RuleId::grooveDepthWidths) * line->groove.size();
  const auto depth = numbers.positive(
      "groove_depth", context.shop.setOut(std::fmin(byWidth, deepest)), RuleId::grooveDepthWidths);
  if (!depth) return tl::unexpected(depth.error());
  const double gap = numbers.length("gap", lengthBy(RuleId::panelGap).mm(), RuleId::panelGap);
  if (gap < 0 || gap >= *depth - kernel::kContact) {
    return fail(ErrorCode::jointLeavesNothing, "the gap leaves nothing of the panel in its groove",
                "gap", "give a gap from 0 to less than the groove's depth");
  }

  const auto setBack = setBackOf(*edges, *line, gap, numbers);
  if (!setBack) return tl::unexpected(setBack.error());

  JointCut cut;
  cut.features = edges->standing(context.id(), line->tongue, *depth - gap, *setBack);
  for (const Mating& member : edges->members()) {
    const Insert room = edges->room(member, line->groove, *depth - gap, gap);
    Feature groove = member.pocket(context.id(), Purpose::groove, room);
    const int along = member.axisOfSecond(member.alongAxis());
    groove.run = along;
    groove.stopped = !runsOut(groove.extent, member.second().blank(), along);
    cut.features.push_back(std::move(groove));
  }
  cut.joint = edges->placed(context);
  cut.joint.glued = false;
  setFit(cut.joint, FitClass::sliding, line->groove.size() - line->tongue.size());
  cut.joint.values = numbers.take();
  return cut;
}

}  // namespace

std::unique_ptr<const JointKind> makePanelGroove() {
  return std::make_unique<PanelGroove>();
}

}  // namespace dryfit::joinery

#include <fmt/format.h>
#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "joinery/formula/length_text.h"
#include "joinery/joints/joint_numbers.h"
#include "joinery/joints/kinds/kinds.h"
#include "joinery/joints/kinds/parameters.h"
#include "joinery/piece/over_run.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

struct DowelSize {
  double diameter = 0;
  double depth = 0;  ///< of the dowel in each mate
};

Result<DowelSize> sizeOf(const JointContext& context, const Mating& mating, JointNumbers& numbers) {
  const int across = mating.thicknessAxis();
  const int acrossSecond = mating.axisOfSecond(across);
  // By the thickness of either part: a hole that is wide for its depth holds little.
  const double thinner = std::min({mating.blank(across).size(), mating.second().size[acrossSecond],
                                   mating.depthOfSecond(), mating.area(mating.alongAxis()).size()});
  const double byShare = context.shop.dowelNear(shareBy(RuleId::dowelDiameterShare) * thinner,
                                                shareBy(RuleId::dowelDiameterShareMost) * thinner);
  const auto diameter = numbers.positive("diameter", byShare, RuleId::dowelDiameterShare);
  if (!diameter) return tl::unexpected(diameter.error());
  const double clearance = lengthBy(RuleId::dowelHoleClearance).mm();
  const double room =
      std::fmin(mating.depthOfSecond(), mating.first().size[mating.contact().face.axis] / 2);
  const double deepest = room - lengthBy(RuleId::dowelWallLeast).mm() - clearance;
  const double byRule = std::fmin(shareBy(RuleId::dowelDepthDiameters) * *diameter, deepest);
  const auto depth =
      numbers.positive("depth", context.shop.setOut(byRule), RuleId::dowelDepthDiameters);
  if (!depth) return tl::unexpected(depth.error());
  return DowelSize{*diameter, *depth};
}

/// The middles of the dowels along the contact: spread evenly between the outer two, or as the
/// author spaced them about the middle.
Result<std::vector<double>> rowOf(const JointContext& context, Stretch area, double diameter,
                                  JointNumbers& numbers) {
  const double edge = numbers.length(
      "edge_distance", shareBy(RuleId::dowelEdgeDiameters) * diameter, RuleId::dowelEdgeDiameters);
  const double free = area.size() - 2 * edge;
  const auto spacing = context.given("spacing");
  const double most = spacing.value_or(lengthBy(RuleId::dowelSpacingMost).mm());
  if (most <= kernel::kContact) {
    return fail(ErrorCode::numberTooSmall, "the spacing leaves no room between dowels", "spacing");
  }
  double byRule = 1;
  if (free >= 2 * diameter) {
    const double gaps = free / most;
    byRule = 1 + (spacing ? std::floor(gaps + kernel::kRounding)
                          : std::fmax(1, std::ceil(gaps - kernel::kRounding)));
  }
  const double count = numbers.number("count", byRule, RuleId::dowelSpacingMost);
  if (count < 1 || count > 1000 || count != std::floor(count)) {
    return fail(ErrorCode::countUnfit, "the number of dowels must be a whole number from 1 to 1000",
                "count");
  }
  const double step = count < 2 ? 0 : spacing.value_or(free / (count - 1));
  numbers.record("spacing", step, spacing.has_value(), RuleId::dowelSpacingMost);
  const double half = step * (count - 1) / 2;
  if (half + diameter / 2 > area.size() / 2 || step < 0 || (count > 1 && step < diameter)) {
    return fail(ErrorCode::jointOutgrowsPart,
                "the dowels do not fit side by side where the parts meet", {},
                "use fewer or thinner dowels");
  }
  std::vector<double> row;
  row.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < static_cast<int>(count); ++i) row.push_back(area.mid() - half + step * i);
  return row;
}

/// A hole from `mouth` inward along `axis`, in the part's own frame.
Feature hole(PartId part, JointId joint, LocalFace face, kernel::Point3 mouth, kernel::Vec3 inward,
             double radius, double depth) {
  const kernel::Cylinder tool{mouth - inward * kOverRun, inward, radius, depth + kOverRun};
  const kernel::Cylinder finished{mouth, inward, radius, depth};
  return {part, joint, Purpose::dowelHole, Stage::cut, tool, kernel::boundsOf(finished), face};
}

void addHoles(const JointContext& context, const Mating& mating, const DowelSize& size,
              double along, JointCut& cut) {
  const Contact& contact = mating.contact();
  const double depth = size.depth + lengthBy(RuleId::dowelHoleClearance).mm();
  kernel::Point3 mouth = contact.area.centre();
  mouth.set(mating.alongAxis(), along);
  const kernel::Vec3 outward = contact.face.outward();
  cut.features.push_back(hole(mating.first().id, context.id(), contact.face, mouth, -outward,
                              size.diameter / 2, depth));
  const kernel::Point3 other = mating.toSecond().place(mouth + outward * contact.gap);
  cut.features.push_back(hole(mating.second().id, context.id(), contact.otherFace, other,
                              -contact.otherFace.outward(), size.diameter / 2, depth));
}

/// A row of dowels, with holes in both mates.
class Dowels final : public JointKind {
 public:
  [[nodiscard]] std::string_view name() const override { return "dowels"; }
  [[nodiscard]] std::span<const Role> roles() const override {
    static constexpr std::array<Role, 2> kRoles{{{"end"}, {"face"}}};
    return kRoles;
  }
  [[nodiscard]] std::span<const Parameter> parameters() const override {
    static const std::vector<Parameter> list = {
        faceParameter("end_face", "face of the end part that meets the other"),
        {"count", Parameter::Type::number, "number of dowels", {}},
        lengthParameter("diameter", "of dowels and holes"),
        lengthParameter("depth", "how far a dowel goes into each part"),
        lengthParameter("spacing", "from centre to centre"),
        lengthParameter("edge_distance", "from the edge to the centre of the outer dowels")};
    return list;
  }
  [[nodiscard]] Result<JointCut> cut(const JointContext& context) const override;
};

Result<JointCut> Dowels::cut(const JointContext& context) const {
  const auto mating = Mating::of(context.mate(0), context.mate(1), faceWord(context, "end_face"));
  if (!mating) return tl::unexpected(mating.error());
  if (!mating->contact().square) {
    return fail(ErrorCode::matesAskew, "the parts meet at faces that are not parallel", {},
                "turn both together, or join them by mortise and tenon");
  }
  JointNumbers numbers(context);
  const auto size = sizeOf(context, *mating, numbers);
  if (!size) return tl::unexpected(size.error());
  const auto row = rowOf(context, mating->area(mating->alongAxis()), size->diameter, numbers);
  if (!row) return tl::unexpected(row.error());

  JointCut cut;
  for (const double along : *row) addHoles(context, *mating, *size, along, cut);
  cut.joint = placedJoint(context, *mating, FitClass::none, 0);
  cut.joint.values = numbers.take();
  const auto words = [&](double mm) { return lengthText(Length::mm(mm), context.shop.unit); };
  cut.joint.hardware.push_back(
      {fmt::format("dowel {} x {} {}", words(size->diameter),
                   words(2 * size->depth - mating->contact().gap), nameOf(context.shop.unit)),
       static_cast<int>(row->size())});
  return cut;
}

}  // namespace

std::unique_ptr<const JointKind> makeDowels() {
  return std::make_unique<Dowels>();
}

}  // namespace dryfit::joinery

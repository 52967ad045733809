#include "joinery/making/measure.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "joinery/piece/true_lengths.h"

namespace dryfit::joinery {
namespace {

/// Half of the last decimal of a rule read to 0.01 mm.
constexpr double kNoChange = 0.005;

bool differ(double before, double after) {
  return std::fabs(after - before) >= kNoChange;
}

void compareParts(const PlacedPart& before, const PlacedPart& after, ChangeReport& report) {
  const kernel::Vec3 overallBefore = before.overall().size();
  const kernel::Vec3 overallAfter = after.overall().size();
  const auto size = [&](const char* name, double from, double to) {
    if (differ(from, to)) {
      report.sizes.push_back({after.id, name, Length::mm(from), Length::mm(to)});
    }
  };
  size("shoulder length", shoulderLines(before).longest(), shoulderLines(after).longest());
  size("overall length", overallBefore.x, overallAfter.x);
  size("width", overallBefore.y, overallAfter.y);
  size("thickness", overallBefore.z, overallAfter.z);
}

void compareJoints(const PlacedJoint& before, const PlacedJoint& after, ChangeReport& report) {
  for (const JointValue& value : after.values) {
    const auto old =
        std::find_if(before.values.begin(), before.values.end(),
                     [&](const JointValue& v) { return v.isLength && v.name == value.name; });
    if (!value.isLength || old == before.values.end() || !differ(old->value, value.value)) continue;
    report.joints.push_back(
        {after.id, value.name, Length::mm(old->value), Length::mm(value.value)});
  }
}

}  // namespace

Basis usualBasis(const Model& model) {
  return model.measurements.empty() && model.marks.empty() ? Basis::drawn : Basis::measured;
}

std::optional<double> moistureOf(const Model& model, PartId id) {
  const Part& part = model.parts[id.index()];
  using Scope = Measurement::Scope;
  for (const auto& [scope, name] : {std::pair(Scope::part, &part.name),
                                    {Scope::batch, &part.batch},
                                    {Scope::material, &part.material}}) {
    for (const Moisture& m : model.moistures) {
      if (m.scope == scope && m.name == *name) return m.percent;
    }
  }
  return std::nullopt;
}

ChangeReport compare(const Piece& before, const Piece& after) {
  ChangeReport report;
  const std::size_t parts = std::min(before.parts.size(), after.parts.size());
  for (std::size_t i = 0; i < parts; ++i) {
    compareParts(before.parts[i], after.parts[i], report);
  }
  const std::size_t joints = std::min(before.joints.size(), after.joints.size());
  for (std::size_t i = 0; i < joints; ++i) {
    compareJoints(before.joints[i], after.joints[i], report);
  }
  return report;
}

}  // namespace dryfit::joinery

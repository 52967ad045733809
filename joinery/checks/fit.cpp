#include <fmt/format.h>

#include "joinery/checks/all.h"
#include "joinery/checks/severity.h"
#include "joinery/checks/wood.h"
#include "joinery/checks/words.h"
#include "joinery/trade/rules.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery::checking {
namespace {

Finding fitFinding(const Piece& piece, const PlacedJoint& joint, bool loose, Unit unit) {
  const bool hopeless =
      loose ? joint.glued && joint.fit > shareBy(RuleId::hopelessPlayTimes) * joint.fitMax
            : joint.fit < 0;
  Finding f;
  f.kind = loose ? FindingKind::loose : FindingKind::tight;
  f.severity = severityOf(f.kind, hopeless ? Case::special : Case::usual);
  f.parts = joint.mates;
  f.joint = joint.id;
  f.at = joint.at;
  f.box = kernel::Box3{joint.at, joint.at}.grown(1);
  f.measured = joint.fit;
  f.limit = loose ? joint.fitMax : joint.fitMin;
  f.unit = "mm";
  f.source = joint.fitSource;
  const std::string mates =
      fmt::format("{} in {}", piece.label(joint.mates.front()), piece.label(joint.mates.back()));
  f.text = loose           ? fmt::format("{} has {} of play at {}; at most {} is allowed.", mates,
                                         fitWords(joint.fit, unit), nameOf(piece, joint.id),
                                         fitWords(joint.fitMax, unit))
           : joint.fit < 0 ? fmt::format("{} is {} too thick to go in at {}.", mates,
                                         fitWords(-joint.fit, unit), nameOf(piece, joint.id))
                           : fmt::format("{} has only {} of play at {}; at least {} is needed.",
                                         mates, fitWords(joint.fit, unit), nameOf(piece, joint.id),
                                         fitWords(joint.fitMin, unit));
  f.text = sentence(std::move(f.text));
  f.ofOneJoint = true;
  f.changes = {{joint.id, "fit", (joint.fitMin + joint.fitMax) / 2,
                fmt::format("set the fit of {} between {} and {}", nameOf(piece, joint.id),
                            fitWords(joint.fitMin, unit), fitWords(joint.fitMax, unit))}};
  f.mend = sentence(f.changes.front().words);
  return f;
}

}  // namespace

Result<void> fit(const CheckInput& input, std::vector<Finding>& findings) {
  for (const PlacedJoint& joint : input.piece.joints) {
    if (joint.fitSource.empty()) continue;  // a kind that has no cheeks to fit
    const bool loose = joint.fit > joint.fitMax + kernel::kPlayRounding;
    const bool tight = joint.fit < joint.fitMin - kernel::kPlayRounding;
    if (loose || tight) findings.push_back(fitFinding(input.piece, joint, loose, input.unit));
  }
  return {};
}

}  // namespace dryfit::joinery::checking

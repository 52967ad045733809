#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "joinery/checks/all.h"
#include "joinery/checks/severity.h"
#include "joinery/checks/wood.h"
#include "joinery/checks/words.h"
#include "joinery/joints/insert.h"
#include "joinery/trade/rules.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery::checking {
namespace {

/// True for what is carried by the faces that meet, with a tenon, dowels or glue alone between
/// them. Housings, grooves and laps carry by their own walls.
bool carriesByItsFaces(const Piece& piece, const PlacedJoint& joint) {
  if (joint.notCut || joint.mates.size() != 2) return false;
  if (std::fabs(joint.gap) > lengthBy(RuleId::restingMost).mm()) return false;
  return std::ranges::none_of(joint.mates, [&](PartId mate) {
    return std::ranges::any_of(
        piece.parts[mate.index()].featuresOf(joint.id),
        [](const Feature& f) { return runsAlong(f.purpose) || traitsOf(f.purpose).openBeside; });
  });
}

/// The faces along the axis in which they share the least of the shorter one.
struct Poorest {
  int axis = 0;
  double shared = 0, whole = 0;  ///< mm
  [[nodiscard]] double share() const { return whole > 0 ? shared / whole : 1; }
};

Poorest poorestOf(const Contact& contact, const PlacedPart& first, const PlacedPart& second) {
  const kernel::Box3 other =
      kernel::boundsOf(relativeFrame(first.frame, second.frame), second.blank());
  Poorest poorest{-1, 1, 1};
  for (int axis = 0; axis < 3; ++axis) {
    if (axis == contact.face.axis) continue;
    const Poorest here{axis, contact.area.size()[axis],
                       std::fmin(first.size[axis], other.size()[axis])};
    if (poorest.axis < 0 || here.share() < poorest.share()) poorest = here;
  }
  return poorest;
}

Finding poorMeeting(const Piece& piece, const PlacedJoint& joint, const Poorest& poorest,
                    Unit unit) {
  const Rule& least = rule(RuleId::meetingShareLeast);
  const std::string first = piece.label(joint.mates[0]), second = piece.label(joint.mates[1]);
  Finding f;
  f.kind = FindingKind::weak;
  f.severity = severityOf(f.kind);
  f.parts = {joint.mates[0], joint.mates[1]};
  f.joint = joint.id;
  f.at = joint.at;
  f.box = kernel::Box3{joint.at, joint.at}.grown(1);
  f.measured = poorest.shared;
  f.limit = least.value * poorest.whole;
  f.unit = "mm";
  f.source = std::string(least.source);
  f.text = sentence(fmt::format("{} and {} meet over {} of {} at {}: too little to carry", first,
                                second, lengthWords(poorest.shared, unit),
                                lengthWords(poorest.whole, unit), nameOf(piece, joint.id)));
  f.mend = sentence(fmt::format("move {} {} farther onto {}", first,
                                atLeastWords(f.limit - poorest.shared, unit), second));
  return f;
}

}  // namespace

Result<void> meeting(const CheckInput& input, std::vector<Finding>& findings) {
  const Piece& piece = input.piece;
  for (const PlacedJoint& joint : piece.joints) {
    if (!carriesByItsFaces(piece, joint)) continue;
    const PlacedPart& first = piece.parts[joint.mates[0].index()];
    const PlacedPart& second = piece.parts[joint.mates[1].index()];
    const auto contact = findContact(first, second, first.named(joint.gapFace));
    if (!contact) continue;
    const Poorest poorest = poorestOf(*contact, first, second);
    if (!fallsShort(poorest.shared, shareBy(RuleId::meetingShareLeast) * poorest.whole)) continue;
    findings.push_back(poorMeeting(piece, joint, poorest, input.unit));
  }
  return {};
}

}  // namespace dryfit::joinery::checking

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "joinery/checks/all.h"
#include "joinery/checks/severity.h"
#include "joinery/checks/wood.h"
#include "joinery/checks/words.h"
#include "joinery/joints/insert.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery::checking {
namespace {

using kernel::Box3;

/// Where a joint lies on a tapered part, and whether the mate meets it by the tapered face.
struct Meeting {
  Box3 box;  ///< in the part's frame
  bool onFace = false;
};

/// The faces that meet, and all that the joint does to the part; none where nothing is known.
std::optional<Meeting> meetingOf(const Piece& piece, const PlacedPart& part,
                                 const PlacedJoint& joint, const PlacedTaper& taper) {
  std::optional<Meeting> all;
  const auto take = [&](const Box3& box, bool onFace) {
    if (!all) all = Meeting{box, false};
    // What meets by the tapered face decides how wide the gap is.
    if (onFace && !all->onFace) all = Meeting{box, true};
    if (onFace == all->onFace) all->box = all->box.united(box);
  };
  for (const PartId mate : joint.mates) {
    if (mate == part.id) continue;
    const auto contact = findContact(part, piece.parts[mate.index()]);
    if (contact && std::fabs(contact->gap) < 1) take(contact->area, contact->face == taper.face);
  }
  for (const Feature& feature : part.featuresOf(joint.id)) {
    if (feature.stage != Stage::extend) take(feature.extent, false);
  }
  return all;
}

/// The most that the taper takes off within the box, mm.
double depthWithin(const PlacedPart& part, const PlacedTaper& taper, const Box3& box) {
  const double low = std::fmax(box.min.x, 0);
  const double high = std::fmin(box.max.x, part.size.x);
  return std::fmax(taper.depthAt(low, part.size.x), taper.depthAt(high, part.size.x));
}

/// By how much later the taper must start to leave the joint on straight wood.
double laterBy(const PlacedPart& part, const PlacedTaper& taper, const Box3& box) {
  const double end = taper.narrowFar ? box.max.x : part.size.x - box.min.x;
  return std::fmin(end, part.size.x) - taper.from;
}

Finding findingOf(const Piece& piece, const PlacedPart& part, const PlacedJoint& joint,
                  const PlacedTaper& taper, const Meeting& meeting, double depth, Unit unit) {
  const std::string label = piece.label(part.id);
  Finding f;
  f.kind = meeting.onFace ? FindingKind::gap : FindingKind::weak;
  f.severity = meeting.onFace ? severityOf(f.kind) : Severity::note;
  f.parts = {part.id};
  f.joint = joint.id;
  setPlace(f, part.frame, meeting.box);
  f.measured = depth;
  f.limit = kernel::kContact;
  f.unit = "mm";
  f.source = meeting.onFace ? "the faces of a joint must touch (common practice)"
                            : "joints are cut where the part is straight (common practice)";
  f.text =
      sentence(fmt::format("the taper {} of {} runs into {}: {} of wood is missing there{}",
                           taper.name, label, nameOf(piece, joint.id), lengthWords(depth, unit),
                           meeting.onFace ? ", and the faces do not touch" : ""));
  const double later = laterBy(part, taper, meeting.box);
  const bool room = taper.from + later < part.size.x - 1;
  f.mend = room ? sentence(fmt::format("start the taper {} from the wide end",
                                       atLeastWords(taper.from + later, unit)))
                : sentence(taper.measured ? "plane the part straight there, or fit the joint to it"
                                          : "leave the part straight there");
  return f;
}

}  // namespace

Result<void> taper(const CheckInput& input, std::vector<Finding>& findings) {
  const Piece& piece = input.piece;
  const bool any =
      std::ranges::any_of(piece.parts, [](const auto& p) { return !p.tapers.empty(); });
  if (!any) return {};
  for (const PlacedJoint& joint : piece.joints) {
    for (const PartId mate : joint.mates) {
      const PlacedPart& part = piece.parts[mate.index()];
      for (const PlacedTaper& one : part.tapers) {
        const auto meeting = meetingOf(piece, part, joint, one);
        if (!meeting) continue;
        const double depth = depthWithin(part, one, meeting->box);
        if (depth <= kernel::kContact) continue;
        findings.push_back(findingOf(piece, part, joint, one, *meeting, depth, input.unit));
      }
    }
  }
  return {};
}

}  // namespace dryfit::joinery::checking

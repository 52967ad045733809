#include <fmt/format.h>

#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include "joinery/base/plain_text.h"
#include "joinery/checks/all.h"
#include "joinery/checks/no_wood_left.h"
#include "joinery/checks/severity.h"
#include "joinery/checks/wood.h"
#include "joinery/checks/words.h"
#include "joinery/making/marks.h"
#include "joinery/piece/made_size.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery::checking {
namespace {

using kernel::Box3;

/// How far a mate lies from the first one, along each axis of the first: over 0 the wood that is
/// missing there, and at which face; below 0 how much of the two lies beside each other.
struct Distance {
  std::array<double, 3> by{};
  std::array<bool, 3> far{};

  /// Two faces look at each other along an axis where the two lie beside each other on both others.
  [[nodiscard]] bool isBeside(int axis) const { return by[axis] < -kernel::kContact; }
  [[nodiscard]] double whole() const {
    return std::hypot(std::fmax(by[0], 0), std::fmax(by[1], 0), std::fmax(by[2], 0));
  }
};

/// For mates that are turned against each other, of the box round the second: a mate that leans is
/// nearer than its box at one end and farther at none.
Distance distanceOf(const PlacedPart& first, const PlacedPart& second) {
  const Box3 other = kernel::boundsOf(first.frame.inverse().after(second.frame), second.blank());
  Distance d;
  for (int axis = 0; axis < 3; ++axis) {
    const double beyond = other.min[axis] - first.size[axis];
    const double before = -other.max[axis];
    d.far[axis] = beyond >= before;
    d.by[axis] = std::fmax(beyond, before);
  }
  return d;
}

/// The axis along which the two should meet: the first part's length where they do not lie beside
/// each other there, else where they are farthest apart. None where they share wood.
std::optional<int> meetingAxis(const Distance& d) {
  std::optional<int> best;
  for (int axis = 0; axis < 3; ++axis) {
    if (d.isBeside(axis)) continue;
    if (axis == 0) return axis;
    if (!best || d.by[axis] > d.by[*best]) best = axis;
  }
  return best;
}

struct Words {
  std::string text, mend;
};

bool isFixed(const Piece& piece, PartId part, int axis) {
  const Mark* mark = markOf(piece.model, piece.part(part).name);
  return mark != nullptr && fixes(mark->state, partAxis(axis));
}

/// The two face each other, but are too far apart: one end of one span would mend it.
Words shortWords(const Piece& piece, const PlacedPart& first, PartId mate, LocalFace face,
                 double by, Unit unit) {
  const std::string name = piece.label(first.id), other = piece.label(mate);
  const std::string distance = lengthWords(by, unit);
  const Face named = first.named(face);
  Words words{
      fmt::format("the {} of {} is {} from {}", joinery::nameOf(named), name, distance, other),
      fmt::format("move {} that much nearer to {}", name, other)};
  if (face.squareTo(PartAxis::thickness) || isFixed(piece, first.id, face.axis)) return words;
  words.mend =
      fmt::format("make {} {} {} at its {} (\"{}\" of its {}), or move {} that much nearer", name,
                  distance, longerWord(face), joinery::nameOf(named),
                  isFarFace(named) ? "to" : "from", joinery::nameOf(partAxis(face.axis)), other);
  return words;
}

/// What is wrong where the mates do not meet.
Words apartWords(const Piece& piece, const PlacedJoint& joint, const Distance& d, Unit unit) {
  const PlacedPart& first = piece.parts[joint.mates.front().index()];
  const std::string name = piece.label(first.id), other = piece.label(joint.gapTo);
  const auto axis = meetingAxis(d);
  if (!axis) {
    return {fmt::format("no end or edge of {} stops at a face of {}", name, other),
            fmt::format("end {} at the face of {} that it is to meet", name, other)};
  }
  const LocalFace face{*axis, d.far[*axis]};
  std::vector<std::string> ways, moves;
  for (int side = 0; side < 3; ++side) {
    if (side == *axis || d.isBeside(side)) continue;
    const double by = std::fmax(d.by[side], 0);
    const auto towards = joinery::nameOf(first.named({side, d.far[side]}));
    ways.push_back(fmt::format("{} at its {}", lengthWords(by, unit), towards));
    moves.push_back(fmt::format("more than {} towards its {}", lengthWords(by, unit), towards));
  }
  if (moves.empty()) return shortWords(piece, first, joint.gapTo, face, d.by[*axis], unit);
  return {fmt::format("{} passes {} by, {}", name, other, listed(ways)),
          fmt::format("move {} {}, so that its {} looks at {}", name, listed(moves),
                      joinery::nameOf(first.named(face)), other)};
}

Finding findingOf(const Piece& piece, const PlacedJoint& joint, Unit unit) {
  const Error& why = *joint.notCut;
  Finding f;
  f.kind = FindingKind::notCut;
  f.severity = severityOf(f.kind);
  f.parts = joint.mates;
  f.joint = joint.id;
  f.at = joint.at;
  f.box = Box3{joint.at, joint.at}.grown(1);
  f.unit = "mm";
  f.source = "geometry of the joint";
  Words words{why.what, why.mend};
  if (why.code == ErrorCode::matesApart) {
    const Distance d =
        distanceOf(piece.parts[joint.mates.front().index()], piece.parts[joint.gapTo.index()]);
    f.measured = d.whole();
    words = apartWords(piece, joint, d, unit);
  } else if (!why.where.empty()) {
    words.text = fmt::format("{} ({})", words.text, why.where);
  }
  f.text = fmt::format("{} cannot be cut: {}.", nameOf(piece, joint.id), words.text);
  f.text = sentence(std::move(f.text));
  f.mend = sentence(std::move(words.mend));
  return f;
}

/// Of a part that its own cuts take away.
Finding noWoodFinding(const Piece& piece, const PlacedPart& part) {
  const Error why = noWoodLeft(piece, part);
  Finding f;
  f.kind = FindingKind::notCut;
  f.severity = severityOf(f.kind);
  f.parts = {part.id};
  setPlace(f, part.frame, part.blank());
  f.unit = "mm";
  f.source = "geometry of the part";
  f.text = sentence(fmt::format("of {} {}", piece.label(part.id), why.what));
  f.mend = sentence(why.mend);
  return f;
}

}  // namespace

Result<void> notCut(const CheckInput& input, std::vector<Finding>& findings) {
  for (const PartId part : partsWithoutWood(input.piece)) {
    findings.push_back(noWoodFinding(input.piece, input.piece.parts[part.index()]));
  }
  for (const PlacedJoint& joint : input.piece.joints) {
    if (joint.notCut) findings.push_back(findingOf(input.piece, joint, input.unit));
  }
  return {};
}

}  // namespace dryfit::joinery::checking

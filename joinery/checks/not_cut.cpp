#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "joinery/base/plain_text.h"
#include "joinery/checks/all.h"
#include "joinery/checks/severity.h"
#include "joinery/checks/words.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery::checking {
namespace {

using kernel::Box3;

/// How far a mate lies from the first one, along each axis of the first: the wood that is missing
/// there, and at which face; 0 where the two lie beside each other.
struct Distance {
  std::array<double, 3> by{};
  std::array<bool, 3> far{};

  [[nodiscard]] int axes() const {
    return static_cast<int>(std::ranges::count_if(by, [](double d) { return d > 0; }));
  }
  [[nodiscard]] int farthest() const {
    return static_cast<int>(std::ranges::max_element(by) - by.begin());
  }
  [[nodiscard]] double whole() const { return std::hypot(by[0], by[1], by[2]); }
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
    d.by[axis] = std::fmax(0, std::fmax(beyond, before));
    if (d.by[axis] <= kernel::kContact) d.by[axis] = 0;
  }
  return d;
}

/// The mate that lies farthest from the first.
PartId farthestMate(const Piece& piece, const PlacedJoint& joint) {
  const PlacedPart& first = piece.parts[joint.mates.front().index()];
  return *std::max_element(joint.mates.begin() + 1, joint.mates.end(), [&](PartId a, PartId b) {
    return distanceOf(first, piece.parts[a.index()]).whole() <
           distanceOf(first, piece.parts[b.index()]).whole();
  });
}

struct Words {
  std::string text, mend;
};

/// What is wrong where the mates do not meet, and which end of which span would mend it.
Words apartWords(const Piece& piece, const PlacedJoint& joint, const Distance& d, PartId mate,
                 Unit unit) {
  const PlacedPart& first = piece.parts[joint.mates.front().index()];
  const std::string name = piece.label(first.id), other = piece.label(mate);
  if (d.axes() == 0) {
    return {fmt::format("no end or edge of {} stops at a face of {}", name, other),
            fmt::format("end {} at the face of {} that it is to meet", name, other)};
  }
  const int axis = d.farthest();
  const LocalFace face{axis, d.far[axis]};
  const std::string by = lengthWords(d.by[axis], unit);
  const Face named = first.named(face);
  if (d.axes() == 1) {
    return {fmt::format("the {} of {} is {} from {}", joinery::nameOf(named), name, by, other),
            fmt::format("make {} {} {} at its {} (\"{}\" of its {}), or move {} that much nearer",
                        name, by, longerWord(face), joinery::nameOf(named),
                        isFarFace(named) ? "to" : "from", joinery::nameOf(partAxis(axis)), other)};
  }
  // They pass each other: moving one sideways by the lesser distances brings them face to face.
  std::vector<std::string> moves;
  for (int side = 0; side < 3; ++side) {
    if (side == axis || d.by[side] == 0) continue;
    moves.push_back(fmt::format("{} towards its {}", lengthWords(d.by[side], unit),
                                joinery::nameOf(first.named({side, d.far[side]}))));
  }
  return {fmt::format("{} passes {} by: no face of one looks at a face of the other", name, other),
          fmt::format("move {} at least {}, so that its {} looks at {}", name, listed(moves),
                      joinery::nameOf(named), other)};
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
    const PartId mate = farthestMate(piece, joint);
    const Distance d =
        distanceOf(piece.parts[joint.mates.front().index()], piece.parts[mate.index()]);
    f.measured = d.whole();
    words = apartWords(piece, joint, d, mate, unit);
  } else if (!why.where.empty()) {
    words.text = fmt::format("{} ({})", words.text, why.where);
  }
  f.text = fmt::format("{} cannot be cut: {}.", nameOf(piece, joint.id), words.text);
  f.text = sentence(std::move(f.text));
  f.mend = sentence(std::move(words.mend));
  return f;
}

}  // namespace

Result<void> notCut(const CheckInput& input, std::vector<Finding>& findings) {
  for (const PlacedJoint& joint : input.piece.joints) {
    if (joint.notCut) findings.push_back(findingOf(input.piece, joint, input.unit));
  }
  return {};
}

}  // namespace dryfit::joinery::checking

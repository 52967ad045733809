#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "joinery/checks/all.h"
#include "joinery/checks/severity.h"
#include "joinery/checks/wood.h"
#include "joinery/checks/words.h"
#include "joinery/trade/rules.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery::checking {
namespace {

using kernel::Box3;

/// Wood between a cut and one face of the part.
struct Wall {
  const Feature* cut;
  LocalFace face;
  double thickness;  ///< < 0: the cut goes past the face
  double limit;
  const Rule* rule;
  bool mateStandsPast = false;  ///< by -thickness
};

double woodTo(const PlacedPart& part, const Box3& box, LocalFace face) {
  return face.far ? part.size[face.axis] - box.max[face.axis] : box.min[face.axis];
}

bool isThin(const Wall& wall) {
  return fallsShort(wall.thickness, wall.limit);
}

/// How far the part that goes into a cut stands past a face of the part there, where the cut is
/// open at that face; 0 where it does not. An open mortise is good work only under a mate that ends
/// with it.
double standsPast(const Piece& piece, const PlacedPart& part, const Feature& cut, LocalFace face) {
  const Feature* insert = insertOf(piece, cut);
  if (insert == nullptr || woodTo(part, cut.extent, face) > kernel::kContact) return 0;
  const PlacedPart& mate = piece.parts[insert->part.index()];
  Box3 shoulder = mate.blank();
  const int along = insert->face.axis;
  const double at = insert->face.far ? insert->extent.min[along] : insert->extent.max[along];
  shoulder.min.set(along, at);
  shoulder.max.set(along, at);
  const Box3 box = kernel::boundsOf(relativeFrame(part.frame, mate.frame), shoulder);
  const Box3 wood = part.overall();
  const double past = face.far ? box.max[face.axis] - wood.max[face.axis]
                               : wood.min[face.axis] - box.min[face.axis];
  return std::fmax(past, 0);
}

/// The walls that a cut needs on the outside of its part: beyond its bottom unless it is meant to
/// come out, and on its sides unless it runs out there by its nature.
std::vector<Wall> wallsOf(const Piece& piece, const PlacedPart& part, const Feature& cut) {
  std::vector<Wall> walls;
  const auto add = [&](LocalFace face) {
    const WallLimit limit = wallLimit(part, face.axis, cut);
    walls.push_back({&cut, face, woodTo(part, cut.extent, face), limit.least, limit.rule});
  };
  if (!cut.through) add({cut.face.axis, !cut.face.far});
  if (traitsOf(cut.purpose).openBeside) return walls;
  for (int axis = 0; axis < 3; ++axis) {
    if (axis == cut.face.axis) continue;
    if (traitsOf(cut.purpose).openAlongRun && axis == runAxis(cut)) continue;
    for (const bool far : {false, true}) {
      const LocalFace face{axis, far};
      // Too little wood at the end of the grain is the grain check's affair; none at all is not.
      const double past = standsPast(piece, part, cut, face);
      if (past > kernel::kContact) {
        walls.push_back({&cut, face, -past, 0, &rule(RuleId::mortiseWallLeast), true});
      } else if (!isSolidWood(piece, part.id) || part.grain != partAxis(axis)) {
        add(face);
      }
    }
  }
  return walls;
}

/// Box of the wood, or of the missing wood, between the cut and the face.
Box3 boxOf(const PlacedPart& part, const Wall& wall) {
  Box3 box = wall.cut->extent;
  const int axis = wall.face.axis;
  const double inner = wall.face.far ? box.max[axis] : box.min[axis];
  const double outer = wall.face.far ? part.size[axis] : 0;
  box.min.set(axis, std::min(inner, outer));
  box.max.set(axis, std::max(inner, outer));
  return box;
}

void setMend(const Piece& piece, const Wall& wall, Unit unit, Finding& finding) {
  const double by = wall.limit - wall.thickness;
  if (wall.face.axis == wall.cut->face.axis) {
    setEither(finding, shallower(piece, *wall.cut, by, unit), std::nullopt,
              fmt::format("leave out {}", nameOf(piece, *wall.cut)));
    return;
  }
  finding.mend = fmt::format("Move {} {} away from that face, or make it that much narrower.",
                             nameOf(piece, *wall.cut), atLeastWords(by, unit));
}

/// No other kind or size would do here: the mates do not meet where the joint is.
void tellWhoStandsPast(const Piece& piece, const PlacedPart& part, const Wall& wall, Unit unit,
                       Finding& f) {
  const PartId mate = insertOf(piece, *wall.cut)->part;
  const std::string by = lengthWords(-wall.thickness, unit);
  const std::string_view face = joinery::nameOf(part.named(wall.face));
  f.ofOneJoint = false;
  f.parts = {mate, part.id};
  f.source = "a tenon goes into wood all round (common practice)";
  f.text = sentence(fmt::format("{} stands {} past the {} of {}, so that {} is open there",
                                piece.label(mate), by, face, piece.label(part.id),
                                nameOf(piece, *wall.cut)));
  f.mend = sentence(fmt::format("move {} inward by {}, or let {} end {} farther out at the {}",
                                piece.label(mate), by, piece.label(part.id), by, face));
}

Finding outsideFinding(const Piece& piece, const PlacedPart& part, const Wall& wall, Unit unit) {
  const bool out = wall.thickness <= kernel::kContact;
  Finding f;
  f.kind = FindingKind::breakout;
  f.severity = severityOf(f.kind, out ? Case::special : Case::usual);
  f.parts = {part.id};
  f.joint = wall.cut->joint;
  setPlace(f, part.frame, boxOf(part, wall));
  f.measured = wall.thickness;
  f.limit = wall.limit;
  f.unit = "mm";
  f.source = std::string(wall.rule->source);
  const std::string_view face = joinery::nameOf(part.named(wall.face));
  f.text =
      sentence(out ? fmt::format("{} breaks out of {} at the {}{}", nameOf(piece, *wall.cut),
                                 piece.label(part.id), face,
                                 wall.thickness < -kernel::kContact
                                     ? fmt::format(" by {}", lengthWords(-wall.thickness, unit))
                                     : "")
                   : fmt::format("{} leaves {} of wood at the {} of {}; at least {} is needed",
                                 nameOf(piece, *wall.cut), lengthWords(wall.thickness, unit), face,
                                 piece.label(part.id), atLeastWords(wall.limit, unit)));
  f.ofOneJoint = true;
  setMend(piece, wall, unit, f);
  if (wall.mateStandsPast) tellWhoStandsPast(piece, part, wall, unit, f);
  return f;
}

/// One finding a joint and face: a row of dowel holes is one mistake, not many.
void outsideWalls(const CheckInput& input, const PlacedPart& part, std::vector<Finding>& findings) {
  const Piece& piece = input.piece;
  std::map<std::tuple<JointId, int, bool>, Wall> worst;
  for (const Feature* cut : cutsOf(part)) {
    for (const Wall& wall : wallsOf(piece, part, *cut)) {
      if (!isThin(wall)) continue;
      const std::tuple key(cut->joint, wall.face.axis, wall.face.far);
      const auto [entry, added] = worst.try_emplace(key, wall);
      if (!added && wall.thickness < entry->second.thickness) entry->second = wall;
    }
  }
  for (const auto& [key, wall] : worst)
    findings.push_back(outsideFinding(piece, part, wall, input.unit));
}

/// Wood between cuts of two joints.
struct InnerWall {
  const Feature* a;
  const Feature* b;
  double thickness;
  WallLimit limit;
};

/// Box between two boxes: along an axis where they are apart the wood between, else what they
/// share.
Box3 between(const Box3& a, const Box3& b) {
  Box3 box = a.common(b);
  for (int axis = 0; axis < 3; ++axis) {
    if (box.min[axis] <= box.max[axis]) continue;
    const double low = box.max[axis];
    box.max.set(axis, box.min[axis]);
    box.min.set(axis, low);
  }
  return box;
}

Finding betweenFinding(const Piece& piece, const PlacedPart& part, const InnerWall& wall,
                       Unit unit) {
  const bool out = wall.thickness <= kernel::kContact;
  Finding f;
  f.kind = FindingKind::breakout;
  f.severity = severityOf(f.kind, out ? Case::special : Case::usual);
  f.parts = {part.id};
  f.joint = wall.a->joint;
  const Box3 overall = part.overall();
  const Box3 boxA = reach(overall, *wall.a);
  const Box3 boxB = reach(overall, *wall.b);
  setPlace(f, part.frame, between(boxA, boxB));
  f.measured = wall.thickness;
  f.limit = wall.limit.least;
  f.unit = "mm";
  f.source = std::string(wall.limit.rule->source);
  f.text = sentence(fmt::format(
      "in {} only {} of wood is left between {} and {}; at least {} is needed",
      piece.label(part.id), lengthWords(out ? 0 : wall.thickness, unit), nameOf(piece, *wall.a),
      nameOf(piece, *wall.b), atLeastWords(wall.limit.least, unit)));
  const double by = wall.limit.least - wall.thickness;
  const std::string apart = fmt::format("move {} and {} apart by {}", nameOf(piece, *wall.a),
                                        nameOf(piece, *wall.b), atLeastWords(by, unit));
  // Making a cut shallower helps only where its bottom is what comes near.
  const auto bottomNears = [&](const Feature& cut, const Box3& own, const Box3& other) {
    const int axis = cut.face.axis;
    return cut.face.far ? own.min[axis] >= other.max[axis] - kernel::kContact
                        : own.max[axis] <= other.min[axis] + kernel::kContact;
  };
  const auto shallowA =
      bottomNears(*wall.a, boxA, boxB) ? shallower(piece, *wall.a, by, unit) : std::nullopt;
  const auto shallowB =
      bottomNears(*wall.b, boxB, boxA) ? shallower(piece, *wall.b, by, unit) : std::nullopt;
  setEither(f, shallowA, shallowB, apart);
  return f;
}

Result<void> innerWalls(const CheckInput& input, const PlacedPart& part,
                        std::vector<Finding>& findings) {
  const Piece& piece = input.piece;
  std::map<std::pair<JointId, JointId>, InnerWall> worst;
  const std::vector<const Feature*> cuts = cutsOf(part);
  const Box3 overall = part.overall();
  const BoxTree tree = treeOf(overall, cuts);
  // No wall need be thicker than this one, so cuts farther apart are not looked at.
  for (const auto& [i, j] : tree.pairs(lengthBy(RuleId::mortiseWallLeast).mm())) {
    const bool inOrder = cuts[i]->joint <= cuts[j]->joint;
    const Feature& a = *cuts[inOrder ? i : j];
    const Feature& b = *cuts[inOrder ? j : i];
    if (a.joint == b.joint || isOrdinaryMeeting(piece, a, b)) continue;
    // A cut that misses its part leaves all the wood; the gap check tells of it.
    if (tree.box(i).empty() || tree.box(j).empty()) continue;
    const WallLimit limit = limitBetween(part, a, b);
    if (tree.box(inOrder ? i : j).grown(limit.least).common(tree.box(inOrder ? j : i)).empty())
      continue;
    if (auto stop = input.stopIfAsked(); !stop) return stop;
    const auto shared = sharedCut(overall, a, b, input.memory);
    if (!shared) return tl::unexpected(shared.error().within(piece.part(part.id).name));
    if (shared->volume > kernel::kSliverVolume) continue;  // a clash
    const auto wall = wallBetween(overall, a, b, input.memory);
    if (!wall) return tl::unexpected(wall.error().within(piece.part(part.id).name));
    if (!fallsShort(*wall, limit.least)) continue;
    const InnerWall found{&a, &b, *wall, limit};
    const auto [entry, added] = worst.try_emplace({a.joint, b.joint}, found);
    if (!added && *wall < entry->second.thickness) entry->second = found;
  }
  for (const auto& [joints, wall] : worst)
    findings.push_back(betweenFinding(piece, part, wall, input.unit));
  return {};
}

}  // namespace

Result<void> breakout(const CheckInput& input, std::vector<Finding>& findings) {
  for (const PlacedPart& part : input.piece.parts) {
    if (auto stop = input.stopIfAsked(); !stop) return stop;
    outsideWalls(input, part, findings);
    if (auto done = innerWalls(input, part, findings); !done) return done;
  }
  return {};
}

}  // namespace dryfit::joinery::checking

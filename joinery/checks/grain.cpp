#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
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

bool hasGrain(const Piece& piece, const PlacedPart& part) {
  return part.grain && isSolidWood(piece, part.id);
}

/// Tenons whose grain runs across them: they snap off at the shoulder. One finding a part, since
/// one turn of its grain mends them all.
void tenonsAcrossGrain(const Piece& piece, const PlacedPart& part, std::vector<Finding>& findings) {
  const Feature* first = nullptr;
  for (const Feature& tenon : part.features) {
    if (tenon.stage != Stage::insert || !traitsOf(tenon.purpose).bears) continue;
    if (!tenon.face.squareTo(*part.grain) && first == nullptr) first = &tenon;
  }
  if (first == nullptr) return;
  Finding f;
  f.kind = FindingKind::shortGrain;
  f.severity = severityOf(f.kind, Case::special);
  f.parts = {part.id};
  f.joint = first->joint;
  setPlace(f, part.frame, first->extent);
  f.measured = 90;
  f.limit = rule(RuleId::grainAngleMost).value;
  f.unit = "°";
  f.source =
      "the grain must run along a tenon (" + std::string(rule(RuleId::grainAngleMost).source) + ")";
  f.text = sentence(fmt::format("the grain of {} runs across {}, which will snap off",
                                piece.label(part.id), nameOf(piece, *first)));
  f.mend = sentence(fmt::format("run the grain of {} along its {}, or use a loose tenon",
                                piece.label(part.id), first->face.axis == 0 ? "length" : "width"));
  findings.push_back(std::move(f));
}

/// True where a cut has a bank of short grain between itself and the end of the part.
bool severesGrain(const PlacedPart& part, const Feature& cut) {
  const ShortGrain where = traitsOf(cut.purpose).shortGrain;
  if (where == ShortGrain::never || cut.face.squareTo(*part.grain)) return false;
  return where == ShortGrain::enteredAcross || runAxis(cut) != indexOf(*part.grain);
}

struct EndWood {
  const Feature* cut;
  LocalFace end;
  double left;
};

/// How much wood is needed between a cut and the end of the grain: a round hole leaves no straight
/// line along which it would break out.
struct EndLimit {
  double least;
  const Rule& rule;
};
EndLimit endLimitOf(const Feature& cut) {
  const auto* hole = std::get_if<kernel::Cylinder>(&cut.tool);
  if (hole == nullptr) {
    return {lengthBy(RuleId::endWoodLeast).mm(), rule(RuleId::endWoodLeast)};
  }
  const double middle = shareBy(RuleId::dowelEndDiameters) * 2 * hole->radius;
  return {std::fmin(middle - hole->radius, lengthBy(RuleId::endWoodLeast).mm()),
          rule(RuleId::dowelEndDiameters)};
}

Finding endWoodFinding(const Piece& piece, const PlacedPart& part, const EndWood& wood, Unit unit) {
  const auto [limit, least] = endLimitOf(*wood.cut);
  Box3 box = wood.cut->extent;
  const int axis = wood.end.axis;
  if (wood.end.far) {
    box.min.set(axis, box.max[axis]);
    box.max.set(axis, part.size[axis]);
  } else {
    box.max.set(axis, box.min[axis]);
    box.min.set(axis, 0);
  }
  Finding f;
  f.kind = FindingKind::shortGrain;
  f.severity = severityOf(f.kind);
  f.parts = {part.id};
  f.joint = wood.cut->joint;
  setPlace(f, part.frame, box);
  f.measured = wood.left;
  f.limit = limit;
  f.unit = "mm";
  f.source = std::string(least.source);
  f.ofOneJoint = true;
  f.text = sentence(fmt::format(
      "{} leaves {} of short grain at the {} end of {}; at least {} is needed",
      nameOf(piece, *wood.cut), lengthWords(wood.left, unit), joinery::nameOf(part.named(wood.end)),
      piece.label(part.id), atLeastWords(limit, unit)));
  f.mend =
      fmt::format("Move {} {} away from the end, or leave {} longer.", nameOf(piece, *wood.cut),
                  atLeastWords(limit - wood.left, unit), piece.label(part.id));
  return f;
}

/// Cuts across the grain too near to the end of the part; the worst of each joint and end.
void endWood(const CheckInput& input, const PlacedPart& part, std::vector<Finding>& findings) {
  std::map<std::pair<JointId, bool>, EndWood> worst;
  for (const Feature* cut : cutsOf(part)) {
    if (!severesGrain(part, *cut)) continue;
    for (const bool far : {false, true}) {
      const LocalFace end{indexOf(*part.grain), far};
      const double left =
          far ? part.size[end.axis] - cut->extent.max[end.axis] : cut->extent.min[end.axis];
      // A cut that reaches the end leaves nothing there to break off.
      if (left <= kernel::kContact) continue;
      if (!fallsShort(left, endLimitOf(*cut).least)) continue;
      const EndWood wood{cut, end, left};
      const auto [entry, added] = worst.try_emplace({cut->joint, far}, wood);
      if (!added && left < entry->second.left) entry->second = wood;
    }
  }
  for (const auto& [key, wood] : worst)
    findings.push_back(endWoodFinding(input.piece, part, wood, input.unit));
}

/// Box round what a joint leaves standing on a part, or cuts out of it: where the glue is. A haunch
/// beside its tenon is left dry.
std::optional<Box3> glueBox(const PlacedPart& part, JointId joint, Stage stage) {
  std::optional<Box3> box;
  for (const Feature& feature : part.featuresOf(joint)) {
    if (feature.stage != stage || feature.purpose == Purpose::haunch) continue;
    box = box ? box->united(feature.extent) : feature.extent;
  }
  return box;
}

struct Glue {
  PartId part;
  Box3 box;
};

/// Where two bare faces are glued: what both blanks share, in the frame of the first mate.
std::optional<Glue> faceGlueOf(const Piece& piece, const PlacedJoint& joint) {
  if (joint.mates.size() != 2) return std::nullopt;
  const PlacedPart& first = piece.parts[joint.mates[0].index()];
  const PlacedPart& second = piece.parts[joint.mates[1].index()];
  const kernel::Frame toFirst = relativeFrame(first.frame, second.frame);
  Box3 box = kernel::boundsOf(toFirst, second.blank()).common(first.blank());
  for (int axis = 0; axis < 3; ++axis) {  // faces that stand apart: the room between them
    const auto [low, high] = std::minmax({box.min[axis], box.max[axis]});
    box.min.set(axis, low);
    box.max.set(axis, high);
  }
  return Glue{first.id, box};
}

std::optional<Glue> glueOf(const Piece& piece, const PlacedJoint& joint) {
  for (const Stage stage : {Stage::insert, Stage::cut}) {
    for (const PartId mate : joint.mates) {
      if (const auto box = glueBox(piece.parts[mate.index()], joint.id, stage)) {
        return Glue{mate, *box};
      }
    }
  }
  return faceGlueOf(piece, joint);
}

// Along the grain wood hardly moves; square to it it moves most.
bool isAlong(double cosine) {
  return cosine >= std::cos(angleBy(RuleId::grainAngleMost).radians()) - kernel::kRounding;
}
bool isAcross(double cosine) {
  return cosine <= std::sin(angleBy(RuleId::grainAngleMost).radians()) + kernel::kRounding;
}

/// The greatest width over which one mate moves across its grain and the other, along its own,
/// does not; its axis in the frame of the glue. Width 0 where there is none. What stands out beyond
/// the other part, or lies deep in the own wood, holds nothing.
std::pair<double, int> restrainedWidth(const Piece& piece, const Glue& glue,
                                       const PlacedPart& other) {
  const PlacedPart& part = piece.parts[glue.part.index()];
  const Box3 mate = kernel::boundsOf(relativeFrame(part.frame, other.frame), other.blank());
  const kernel::Vec3 held = glue.box.common(mate).size();
  const auto grainOf = [](const PlacedPart& p) { return p.frame.axis(indexOf(*p.grain)); };
  std::pair<double, int> widest{0, 0};
  for (int axis = 0; axis < 3; ++axis) {
    const kernel::Vec3 direction = part.frame.axis(axis);
    const double own = std::fabs(direction.dot(grainOf(part)));
    const double others = std::fabs(direction.dot(grainOf(other)));
    const bool restrained =
        (isAlong(own) && isAcross(others)) || (isAcross(own) && isAlong(others));
    if (restrained && held[axis] > widest.first) widest = {held[axis], axis};
  }
  return widest;
}

void crossGrain(const CheckInput& input, const PlacedJoint& joint, std::vector<Finding>& findings) {
  const Piece& piece = input.piece;
  const Unit unit = input.unit;
  if (!joint.glued) return;
  const auto glue = glueOf(piece, joint);
  if (!glue || !hasGrain(piece, piece.parts[glue->part.index()])) return;
  const Rule& most = rule(RuleId::crossGrainWidthMost);
  const double limit = lengthBy(RuleId::crossGrainWidthMost).mm();
  for (const PartId mate : joint.mates) {
    const PlacedPart& other = piece.parts[mate.index()];
    if (mate == glue->part || !hasGrain(piece, other)) continue;
    const auto [width, axis] = restrainedWidth(piece, *glue, other);
    if (width <= limit + kernel::kContact) continue;
    Finding f;
    f.kind = FindingKind::crossGrain;
    f.severity = severityOf(f.kind);
    f.parts = {std::min(mate, glue->part), std::max(mate, glue->part)};
    f.joint = joint.id;
    setPlace(f, piece.parts[glue->part.index()].frame, glue->box);
    f.measured = width;
    f.limit = limit;
    f.unit = "mm";
    f.source = std::string(most.source);
    f.ofOneJoint = true;
    f.text = fmt::format(
        "{} and {} are glued across the grain over {} at {}; more than {} will not hold.",
        piece.label(f.parts[0]), piece.label(f.parts[1]), lengthWords(width, unit),
        nameOf(piece, joint.id), atMostWords(limit, unit));
    f.text = sentence(std::move(f.text));
    f.mend = fmt::format("Glue at most {} of the width and leave the rest free to move.",
                         atMostWords(limit, unit));
    findings.push_back(std::move(f));
  }
}

}  // namespace

Result<void> grain(const CheckInput& input, std::vector<Finding>& findings) {
  const Piece& piece = input.piece;
  for (const PlacedPart& part : piece.parts) {
    if (!hasGrain(piece, part)) continue;
    tenonsAcrossGrain(piece, part, findings);
    endWood(input, part, findings);
  }
  for (const PlacedJoint& joint : piece.joints) crossGrain(input, joint, findings);
  return {};
}

}  // namespace dryfit::joinery::checking

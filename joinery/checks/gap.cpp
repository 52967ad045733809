#include <fmt/format.h>

#include "joinery/checks/all.h"
#include "joinery/checks/severity.h"
#include "joinery/checks/wood.h"
#include "joinery/checks/words.h"
#include "joinery/making/marks.h"
#include "joinery/piece/made_size.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery::checking {
namespace {

/// Box in the piece round what a joint does to its mates, or round its middle.
kernel::Box3 placeOf(const Piece& piece, const PlacedJoint& joint) {
  kernel::Box3 box{joint.at, joint.at};
  for (const PartId mate : joint.mates) {
    const PlacedPart& part = piece.parts[mate.index()];
    for (const Feature& feature : part.featuresOf(joint.id)) {
      box = box.united(kernel::boundsOf(part.frame, feature.extent));
    }
  }
  return box.empty() ? box.grown(1) : box;
}

/// True where the part's size across the face is made for good.
bool isMade(const Piece& piece, PartId part, LocalFace face) {
  const Mark* mark = markOf(piece.model, piece.part(part).name);
  return mark != nullptr && fixes(mark->state, partAxis(face.axis));
}

}  // namespace

// Faces that overlap (gap below zero) share wood and are left to the interference check.
Result<void> gap(const CheckInput& input, std::vector<Finding>& findings) {
  const Piece& piece = input.piece;
  const Unit unit = input.unit;
  for (const PlacedJoint& joint : piece.joints) {
    if (joint.gap <= kernel::kContact) continue;
    Finding f;
    f.kind = FindingKind::gap;
    f.severity = severityOf(f.kind);
    f.parts = {joint.mates.front(), joint.gapTo};
    f.joint = joint.id;
    f.at = joint.at;
    f.box = placeOf(piece, joint);
    f.measured = joint.gap;
    f.limit = kernel::kContact;
    f.unit = "mm";
    f.source = "the faces of a joint must touch (common practice)";
    const PlacedPart& part = piece.parts[joint.mates.front().index()];
    const std::string first = piece.label(part.id);
    const std::string second = piece.label(joint.gapTo);
    const std::string by = lengthWords(joint.gap, unit);
    f.text =
        fmt::format("{} stands {} short of {} at {}.", first, by, second, nameOf(piece, joint.id));
    f.text = sentence(std::move(f.text));
    const std::string nearer = fmt::format("move {} {} nearer", second, by);
    f.mend =
        isMade(piece, part.id, joint.gapFace)
            ? fmt::format("{} is made: {}", first, nearer)
            : fmt::format("make {} {} {} at its {}, or {}", first, by, longerWord(joint.gapFace),
                          joinery::nameOf(part.named(joint.gapFace)), nearer);
    f.mend = sentence(std::move(f.mend));
    findings.push_back(std::move(f));
  }
  return {};
}

}  // namespace dryfit::joinery::checking

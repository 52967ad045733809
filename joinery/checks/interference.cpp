#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "joinery/base/box_tree.h"
#include "joinery/base/parallel.h"
#include "joinery/checks/all.h"
#include "joinery/checks/no_wood_left.h"
#include "joinery/checks/severity.h"
#include "joinery/checks/wood.h"
#include "joinery/checks/words.h"
#include "joinery/trade/rules.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery::checking {
namespace {

using kernel::Box3;

struct Pair {
  std::size_t a, b;  ///< a < b
};

/// Pairs of boxes that share more than a sliver. In rising order.
std::vector<Pair> closePairs(std::vector<Box3> boxes) {
  const BoxTree tree(std::move(boxes));
  std::vector<Pair> pairs;
  for (const auto& [a, b] : tree.pairs()) {
    if (tree.box(a).common(tree.box(b)).volume() > kernel::kSliverVolume) pairs.push_back({a, b});
  }
  return pairs;
}

/// Which joints each part is a mate of, in rising order.
using JointsByPart = std::vector<std::vector<JointId>>;

JointsByPart jointsByPart(const Piece& piece) {
  JointsByPart joints(piece.parts.size());
  for (const PlacedJoint& joint : piece.joints) {
    for (const PartId mate : joint.mates) joints[mate.index()].push_back(joint.id);
  }
  return joints;
}

/// Two parts and the wood they share, in the frame of the first.
struct Meeting {
  const PlacedPart& a;
  const PlacedPart& b;
  kernel::Frame bInA;
  kernel::Overlap wood;
};

/// The first joint that both parts are mates of, or null.
const PlacedJoint* jointBetween(const Piece& piece, const JointsByPart& joints, PartId a,
                                PartId b) {
  const auto* few = &joints[a.index()];
  const auto* many = &joints[b.index()];
  if (few->size() > many->size()) std::swap(few, many);
  const auto found = std::find_if(few->begin(), few->end(), [&](JointId id) {
    return std::binary_search(many->begin(), many->end(), id);
  });
  return found == few->end() ? nullptr : &piece.joints[found->index()];
}

/// The wood that a joint too tight by |fit| makes its mates share, mm³.
double woodOfTightness(const Piece& piece, const PlacedJoint& joint) {
  if (joint.fit >= 0) return 0;
  double cheeks = 0;
  for (const PartId mate : joint.mates) {
    for (const Feature& feature : piece.parts[mate.index()].featuresOf(joint.id)) {
      if (feature.stage != Stage::insert) continue;
      const kernel::Vec3 s = feature.extent.size();
      cheeks += std::max({s.x * s.y, s.y * s.z, s.z * s.x});
    }
  }
  return -joint.fit * cheeks;
}

/// A tenon or tongue of `part`, for another mate than the one it meets here, that holds all the
/// shared wood.
const Feature* strayInsert(const PlacedPart& part, const Box3& wood, const PlacedJoint* between) {
  for (const Feature& feature : part.features) {
    if (feature.stage != Stage::insert) continue;
    if (between != nullptr && feature.joint == between->id) continue;
    const Box3 box = feature.extent.grown(10 * kernel::kContact);
    if (box.united(wood) == box) return &feature;
  }
  return nullptr;
}

struct Shortening {
  PartId part;
  double by;
  LocalFace face;
};

/// By how much the part would have to be shortened at an end to leave the shared wood.
std::optional<Shortening> shorteningOf(const PlacedPart& part, const Box3& wood) {
  std::optional<Shortening> best;
  const Box3 whole = part.overall();
  const auto offer = [&](double by, bool far) {
    if (by <= 0 || by >= part.size.x || (best && best->by <= by)) return;
    best = Shortening{part.id, by, {0, far}};
  };
  if (wood.max.x >= whole.max.x - kernel::kContact) offer(whole.max.x - wood.min.x, true);
  if (wood.min.x <= whole.min.x + kernel::kContact) offer(wood.max.x - whole.min.x, false);
  return best;
}

/// True when the joint's own tightness explains the shared wood; the fit check speaks of it.
bool isTightness(const Piece& piece, const Meeting& m, const PlacedJoint* between) {
  return between != nullptr &&
         m.wood.volume <= woodOfTightness(piece, *between) * (1 + kernel::kRelative);
}

std::string mendOf(const Piece& piece, const Meeting& m, const PlacedJoint* between, Unit unit) {
  const Box3& inA = m.wood.bounds;
  const Box3 inB = kernel::boundsOf(m.bInA.inverse(), inA);
  if (between != nullptr && between->gap < -kernel::kContact) {
    return fmt::format("Shorten {} by {} at {}.", piece.label(between->mates.front()),
                       atLeastWords(-between->gap, unit), nameOf(piece, between->id));
  }
  for (const auto& [part, box] : {std::pair(&m.a, &inA), std::pair(&m.b, &inB)}) {
    const Feature* stray = strayInsert(*part, *box, between);
    if (stray == nullptr) continue;
    const double left = stray->extent.size()[stray->face.axis] - box->size()[stray->face.axis];
    if (left < lengthBy(RuleId::cutLeast).mm())
      return fmt::format("Leave out or move {}.", nameOf(piece, *stray));
    return fmt::format("Make {} at most {} long.", nameOf(piece, *stray), atMostWords(left, unit));
  }
  const auto a = shorteningOf(m.a, inA);
  const auto b = shorteningOf(m.b, inB);
  const bool useB = b && (!a || b->by < a->by);
  const auto& best = useB ? b : a;
  const std::string pair = piece.label(m.a.id) + " and " + piece.label(m.b.id);
  if (!best) {
    return between != nullptr
               ? fmt::format("Move {} apart.", pair)
               : fmt::format("Move {} apart, or add the joint that lets one into the other.", pair);
  }
  const PlacedPart& part = piece.parts[best->part.index()];
  const std::string shorten =
      fmt::format("Shorten {} by {} at its {} end", piece.label(best->part),
                  atLeastWords(best->by, unit), joinery::nameOf(part.named(best->face)));
  return between != nullptr ? shorten + "."
                            : shorten + ", or add the joint that lets one into the other.";
}

Finding findingOf(const Piece& piece, const Meeting& m, const PlacedJoint* between, Unit unit) {
  Finding f;
  f.kind = FindingKind::interference;
  f.severity = severityOf(f.kind);
  f.parts = {m.a.id, m.b.id};
  if (between != nullptr) f.joint = between->id;
  f.at = m.a.frame.place(m.wood.centre);
  f.box = kernel::boundsOf(m.a.frame, m.wood.bounds);
  f.measured = m.wood.volume;
  f.limit = kernel::kSliverVolume;
  f.unit = "mm³";
  f.source = "two parts cannot be in the same place";
  f.text =
      fmt::format("{} and {} overlap by {} of wood, {}", piece.label(m.a.id), piece.label(m.b.id),
                  volumeWords(m.wood.volume, unit), sizeWords(m.wood.bounds.size(), unit));
  if (between == nullptr) {
    f.text += "; no joint connects them";
  } else if (between->gap < -kernel::kContact) {
    f.text += fmt::format("; at {} the faces that should just meet overlap by {}",
                          nameOf(piece, between->id), lengthWords(-between->gap, unit));
  } else {
    f.text += ", at " + nameOf(piece, between->id);
  }
  f.text = sentence(std::move(f.text));
  f.mend = mendOf(piece, m, between, unit);
  return f;
}

/// The wood that each pair shares, worked out on all cores where no memory has it.
Result<std::vector<kernel::Overlap>> overlapsOf(const CheckInput& input,
                                                const std::vector<Pair>& pairs) {
  const auto& parts = input.piece.parts;
  std::vector<kernel::Overlap> overlaps(pairs.size());
  std::vector<std::size_t> open;
  const auto questionOf = [&](std::size_t i) {
    const auto [a, b] = pairs[i];
    // In the frame of one of the two, so that turning both together changes nothing.
    return TwoSolids{input.solids[a], input.solids[b],
                     relativeFrame(parts[a].frame, parts[b].frame)};
  };
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    const auto* known = input.memory ? input.memory->overlaps.find(questionOf(i)) : nullptr;
    if (known != nullptr) {
      overlaps[i] = *known;
    } else {
      open.push_back(i);
    }
  }
  const auto ask = [&](std::size_t k) -> Result<void> {
    const std::size_t i = open[k];
    const TwoSolids pair = questionOf(i);
    const auto wood = kernel::overlap(pair.a, pair.b.placed(pair.bInA));
    if (!wood) {
      return tl::unexpected(wood.error().within(input.piece.part(PartId(pairs[i].a)).name + ", " +
                                                input.piece.part(PartId(pairs[i].b)).name));
    }
    overlaps[i] = *wood;
    return {};
  };
  const auto goOn = [&](int, int) { return !input.goOn || input.goOn(); };
  if (const auto done = inParallel(open.size(), ask, goOn); !done) {
    return tl::unexpected(done.error());
  }
  if (input.memory) {
    for (const std::size_t i : open) input.memory->overlaps.keep(questionOf(i), overlaps[i]);
  }
  return overlaps;
}

}  // namespace

Result<void> interference(const CheckInput& input, std::vector<Finding>& findings) {
  const Piece& piece = input.piece;
  std::vector<Box3> boxes;
  boxes.reserve(piece.parts.size());
  for (const PlacedPart& part : piece.parts) {
    boxes.push_back(kernel::boundsOf(part.frame, input.solids[part.id.index()].bounds()));
  }
  std::vector<Pair> pairs = closePairs(std::move(boxes));
  // A part of which no wood is left is there uncut, for want of anything better.
  for (const PartId gone : partsWithoutWood(piece)) {
    std::erase_if(
        pairs, [&](const Pair& pair) { return pair.a == gone.index() || pair.b == gone.index(); });
  }
  const auto overlaps = overlapsOf(input, pairs);
  if (!overlaps) return tl::unexpected(overlaps.error());
  const JointsByPart joints = jointsByPart(piece);
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    const kernel::Overlap& wood = (*overlaps)[i];
    if (wood.volume <= kernel::kSliverVolume) continue;
    const PlacedPart& a = piece.parts[pairs[i].a];
    const PlacedPart& b = piece.parts[pairs[i].b];
    const Meeting meeting{a, b, relativeFrame(a.frame, b.frame), wood};
    const PlacedJoint* between = jointBetween(piece, joints, a.id, b.id);
    if (!isTightness(piece, meeting, between)) {
      findings.push_back(findingOf(piece, meeting, between, input.unit));
    }
  }
  return {};
}

}  // namespace dryfit::joinery::checking

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

#include "joinery/checks/all.h"
#include "joinery/checks/severity.h"
#include "joinery/checks/wood.h"
#include "joinery/checks/words.h"
#include "joinery/trade/rules.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery::checking {
namespace {

using kernel::Box3;

/// Where cuts of two joints meet in one part; the pair of cuts that share most speaks for all.
struct Meeting {
  const Feature* a = nullptr;
  const Feature* b = nullptr;
  double largest = 0;
  double volume = 0;
  Box3 box;      ///< of all pairs of cuts
  Box3 pairBox;  ///< of the largest pair
};

void take(Meeting& m, const Feature& a, const Feature& b, const SharedCut& shared) {
  m.box = m.a == nullptr ? shared.box : m.box.united(shared.box);
  m.volume += shared.volume;
  if (shared.volume > m.largest) {
    m.largest = shared.volume;
    m.pairBox = shared.box;
    m.a = &a;
    m.b = &b;
  }
}

void setMend(const Piece& piece, const PlacedPart& part, const Meeting& m, Unit unit,
             Finding& finding) {
  const kernel::Vec3 size = m.pairBox.size();
  if (m.a->face == m.b->face) {
    const int axis = runAxis(*m.a);
    const int cross = crossAxis(*m.a);
    if (runsAlong(m.a->purpose) != runsAlong(m.b->purpose)) {
      finding.mend = fmt::format("Line up {} and {} across the {}.", nameOf(piece, *m.a),
                                 nameOf(piece, *m.b), cross == 2 ? "thickness" : "width");
      return;
    }
    const double by = std::min(size[axis], size[cross]) + limitBetween(part, *m.a, *m.b).least;
    finding.mend = fmt::format("Move {} away from {} by {}.", nameOf(piece, *m.a),
                               nameOf(piece, *m.b), atLeastWords(by, unit));
    return;
  }
  const Box3 overall = part.overall();
  const double wall = limitBetween(part, *m.a, *m.b).least;
  // Until its bottom stands off the near side of the other by a wall.
  const auto lessDeep = [&](const Feature& cut, const Feature& other) {
    const int axis = cut.face.axis;
    const Box3 own = reach(overall, cut), its = reach(overall, other);
    const double into =
        cut.face.far ? its.max[axis] - own.min[axis] : own.max[axis] - its.min[axis];
    return shallower(piece, cut, into + wall, unit);
  };
  setEither(finding, lessDeep(*m.a, *m.b), lessDeep(*m.b, *m.a),
            fmt::format("move {} away from {}", nameOf(piece, *m.a), nameOf(piece, *m.b)));
}

Finding findingOf(const Piece& piece, const PlacedPart& part, const Meeting& m, Unit unit) {
  Finding f;
  f.kind = FindingKind::clash;
  f.severity = severityOf(f.kind);
  f.parts = {part.id};
  f.joint = m.a->joint;
  setPlace(f, part.frame, m.box);
  f.measured = m.volume;
  f.limit = kernel::kSliverVolume;
  f.unit = "mm³";
  f.source = "there must be wood between the cuts of two joints (common practice)";
  f.text = sentence(fmt::format("in {} {} runs into {}: they overlap by {}, {}",
                                piece.label(part.id), nameOf(piece, *m.a), nameOf(piece, *m.b),
                                volumeWords(m.volume, unit), sizeWords(m.box.size(), unit)));
  setMend(piece, part, m, unit, f);
  return f;
}

/// All cuts of one part, and a tree over what each takes.
struct Cuts {
  const PlacedPart& part;
  Box3 overall;
  std::vector<const Feature*> list;
  BoxTree tree;
};

Result<void> meetingCuts(const CheckInput& input, const Cuts& cuts,
                         std::vector<Finding>& findings) {
  const Piece& piece = input.piece;
  const PlacedPart& part = cuts.part;
  std::map<std::pair<JointId, JointId>, Meeting> meetings;
  for (const auto& [i, j] : cuts.tree.pairs()) {
    const bool inOrder = cuts.list[i]->joint <= cuts.list[j]->joint;
    const Feature& a = *cuts.list[inOrder ? i : j];
    const Feature& b = *cuts.list[inOrder ? j : i];
    if (a.joint == b.joint || isOrdinaryMeeting(piece, a, b)) continue;
    if (auto stop = input.stopIfAsked(); !stop) return stop;
    const auto shared = sharedCut(cuts.overall, a, b, input.memory);
    if (!shared) return tl::unexpected(shared.error().within(piece.part(part.id).name));
    if (shared->volume <= kernel::kSliverVolume) continue;
    take(meetings[{a.joint, b.joint}], a, b, *shared);
  }
  for (const auto& [joints, meeting] : meetings) {
    findings.push_back(findingOf(piece, part, meeting, input.unit));
  }
  return {};
}

/// Area of the union of rectangles given as boxes, seen along `axis`.
double unionArea(const std::vector<Box3>& boxes, int axis) {
  const int u = (axis + 1) % 3;
  const int v = (axis + 2) % 3;
  const auto edges = [&](int along) {
    std::vector<double> at;
    for (const Box3& box : boxes) at.insert(at.end(), {box.min[along], box.max[along]});
    std::sort(at.begin(), at.end());
    return at;
  };
  const std::vector<double> us = edges(u);
  const std::vector<double> vs = edges(v);
  double area = 0;
  for (std::size_t i = 1; i < us.size(); ++i) {
    for (std::size_t j = 1; j < vs.size(); ++j) {
      const double midU = (us[i - 1] + us[i]) / 2;
      const double midV = (vs[j - 1] + vs[j]) / 2;
      const bool covered = std::any_of(boxes.begin(), boxes.end(), [&](const Box3& box) {
        return box.min[u] < midU && midU < box.max[u] && box.min[v] < midV && midV < box.max[v];
      });
      if (covered) area += (us[i] - us[i - 1]) * (vs[j] - vs[j - 1]);
    }
  }
  return area;
}

/// What cuts take from a tenon.
struct Loss {
  double share = 0;  ///< of its section, at the worst place along it; 0..1
  const Feature* worstCut = nullptr;
  Box3 box;
};

/// Cuts that are not square count with the box round what they take: the loss is then no less
/// than the true one.
Loss lossOf(const Cuts& cuts, const Feature& tenon) {
  const int axis = tenon.face.axis;
  std::vector<Box3> taken;
  Loss loss;
  double most = 0;
  for (const std::size_t i : cuts.tree.sharing(tenon.extent)) {
    const Feature* cut = cuts.list[i];
    if (cut->joint == tenon.joint) continue;
    const Box3 box = cuts.tree.box(i).common(tenon.extent);
    if (box.volume() <= kernel::kSliverVolume) continue;
    loss.box = taken.empty() ? box : loss.box.united(box);
    taken.push_back(box);
    if (box.volume() > most) {
      most = box.volume();
      loss.worstCut = cut;
    }
  }
  const double section = tenon.extent.volume() / tenon.extent.size()[axis];
  for (const Box3& at : taken) {
    const double place = (at.min[axis] + at.max[axis]) / 2;
    std::vector<Box3> here;
    std::copy_if(taken.begin(), taken.end(), std::back_inserter(here),
                 [&](const Box3& box) { return box.min[axis] < place && place < box.max[axis]; });
    loss.share = std::max(loss.share, unionArea(here, axis) / section);
  }
  return loss;
}

void cutTenons(const Piece& piece, const Cuts& cuts, std::vector<Finding>& findings) {
  const PlacedPart& part = cuts.part;
  const Rule& most = rule(RuleId::tenonLossShareMost);
  const double limit = shareBy(RuleId::tenonLossShareMost);
  for (const Feature& tenon : part.features) {
    if (tenon.stage != Stage::insert || !traitsOf(tenon.purpose).bears) continue;
    const Loss loss = lossOf(cuts, tenon);
    if (loss.share <= limit + kernel::kRounding) continue;
    Finding f;
    f.kind = FindingKind::clash;
    f.severity = severityOf(f.kind);
    f.parts = {part.id};
    f.joint = tenon.joint;
    setPlace(f, part.frame, loss.box);
    f.measured = loss.share;
    f.limit = limit;
    f.source = std::string(most.source);
    f.text =
        sentence(fmt::format("{} cuts away {:.0f} % of {} on {}", nameOf(piece, *loss.worstCut),
                             loss.share * 100, nameOf(piece, tenon), piece.label(part.id)));
    f.mend = sentence(fmt::format("make {} smaller, or move it off {}",
                                  nameOf(piece, *loss.worstCut), nameOf(piece, tenon)));
    findings.push_back(std::move(f));
  }
}

}  // namespace

Result<void> clash(const CheckInput& input, std::vector<Finding>& findings) {
  for (const PlacedPart& part : input.piece.parts) {
    if (auto stop = input.stopIfAsked(); !stop) return stop;
    const Box3 overall = part.overall();
    const std::vector<const Feature*> list = cutsOf(part);
    const Cuts cuts{part, overall, list, treeOf(overall, list)};
    if (auto done = meetingCuts(input, cuts, findings); !done) return done;
    cutTenons(input.piece, cuts, findings);
  }
  return {};
}

}  // namespace dryfit::joinery::checking

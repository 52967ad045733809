#include "joinery/making/marks.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>

#include "joinery/piece/made_size.h"
#include "joinery/trade/rules.h"

namespace dryfit::joinery {
namespace {

using kernel::Box3;
using kernel::Vec3;

constexpr std::array<std::string_view, 4> kStates{"rough", "machined", "cut", "jointed"};

/// More than any size: a number that no change of the design can bring to nothing.
constexpr double kUnmatched = 1e6;

/// Adds no wood past the blank and takes none: wood for a shoulder that is then cut again.
bool isMade(const Feature& feature) {
  return feature.stage != Stage::extend;
}

bool addsWood(const Feature& feature) {
  return feature.stage == Stage::insert;
}

bool cannotBeCut(const Piece& piece, const std::string& joint) {
  return std::ranges::any_of(piece.joints, [&](const PlacedJoint& placed) {
    return placed.notCut && piece.joint(placed.id).name == joint;
  });
}

/// Features of the part as made, and as the design has them.
struct Match {
  const MadeFeature* made = nullptr;
  const Feature* asked = nullptr;
};

/// Pairs what was made with what is asked, joint by joint and purpose by purpose, in their order.
/// One of a pair may be null.
std::vector<Match> matchesOf(const Piece& piece, const PlacedPart& part, const Mark& mark) {
  std::map<std::pair<std::string, std::string>, std::vector<const Feature*>> asked;
  for (const Feature& feature : part.features) {
    if (!isMade(feature)) continue;
    asked[{piece.joint(feature.joint).name, std::string(nameOf(feature.purpose))}].push_back(
        &feature);
  }
  std::map<std::pair<std::string, std::string>, std::size_t> used;
  std::vector<Match> matches;
  for (const MadeFeature& made : mark.features) {
    if (cannotBeCut(piece, made.joint)) continue;  // the design has it: told as such
    const auto found = asked.find({made.joint, made.purpose});
    const std::size_t k = used[{made.joint, made.purpose}]++;
    const bool there = found != asked.end() && k < found->second.size();
    matches.push_back({&made, there ? found->second[k] : nullptr});
  }
  for (const Feature& feature : part.features) {
    if (!isMade(feature)) continue;
    const std::pair key{piece.joint(feature.joint).name, std::string(nameOf(feature.purpose))};
    const auto& all = asked[key];
    const auto k = static_cast<std::size_t>(std::ranges::find(all, &feature) - all.begin());
    if (k >= used[key]) matches.push_back({nullptr, &feature});
  }
  return matches;
}

bool differ(double a, double b) {
  return std::fabs(a - b) > lengthBy(RuleId::markTolerance).mm();
}

/// True where the piece leaves real wood out of account.
bool looksPastTheWood(const Piece& piece) {
  return piece.basis == Basis::drawn && !piece.model.measurements.empty();
}

const PlacedPart* partOf(const Piece& piece, const Mark& mark) {
  for (const PlacedPart& part : piece.parts) {
    if (piece.part(part.id).name == mark.part) return &part;
  }
  return nullptr;
}

/// How far the far end has gone from where it was made, as its features see it.
double endShift(const Feature& asked, int axis, const Vec3& grown) {
  return asked.face.axis == axis && asked.face.far ? grown[axis] : 0;
}

/// Finds what differs on one marked part.
class Comparison {
 public:
  Comparison(const Piece& piece, const PlacedPart& part, const Mark& mark,
             std::vector<MarkDifference>& out)
      : piece_(piece), part_(part), mark_(mark), out_(out) {}

  void run() {
    for (int axis = 0; axis < 3; ++axis) {
      if (fixes(mark_.state, partAxis(axis))) sizes(axis);
    }
    if (mark_.state != MarkState::jointed) return;
    grown_ = part_.size - mark_.blank;
    const std::vector<Match> matches = matchesOf(piece_, part_, mark_);
    align(matches);
    for (const Match& match : matches) compare(match);
  }

 private:
  /// Where something stands beyond the shoulders of a jointed part, it is the shoulders that count;
  /// the whole is told only where it differs by another amount.
  void sizes(int axis) {
    const double beyond = part_.overall().size()[axis] - part_.size[axis];
    const double overall = part_.asked[axis] + beyond;
    const bool shouldered = mark_.state == MarkState::jointed && beyond != 0;
    if (shouldered) size(MarkDifference::What::blank, axis, mark_.blank[axis], part_.asked[axis]);
    const double grown = shouldered ? part_.asked[axis] - mark_.blank[axis] : 0;
    if (shouldered && !differ(overall - mark_.overall[axis], grown)) return;
    size(MarkDifference::What::size, axis, mark_.overall[axis], overall);
  }

  void size(MarkDifference::What what, int axis, double made, double asked) {
    if (!differ(made, asked)) return;
    MarkDifference d;
    d.part = part_.id;
    d.what = what;
    d.axis = partAxis(axis);
    d.made = made;
    d.asked = asked;
    d.workable = made > asked;
    d.box = part_.overall();
    out_.push_back(std::move(d));
  }

  /// Where the blank has another size than it was made to, the features may lie as they should from
  /// the near end or from the far end; the better of the two is taken.
  void align(const std::vector<Match>& matches) {
    for (int axis = 0; axis < 3; ++axis) {
      if (!differ(grown_[axis], 0)) continue;
      double near = 0, far = 0;
      for (const Match& m : matches) {
        if (m.made == nullptr || m.asked == nullptr || m.asked->face.axis == axis) continue;
        const double off = m.asked->extent.min[axis] - m.made->extent.min[axis];
        near += std::fabs(off);
        far += std::fabs(off - grown_[axis]);
      }
      if (far < near) shift_.set(axis, grown_[axis]);
    }
  }

  void compare(const Match& match) {
    if (match.made == nullptr) {
      unmatched(MarkDifference::What::missing, *match.asked);
    } else if (match.asked == nullptr) {
      MarkDifference d = named(MarkDifference::What::extra, match.made->joint, match.made->purpose);
      d.box = match.made->extent;
      d.made = largest(match.made->extent);
      out_.push_back(std::move(d));
    } else {
      place(*match.made, *match.asked);
    }
  }

  void unmatched(MarkDifference::What what, const Feature& asked) {
    MarkDifference d =
        named(what, piece_.joint(asked.joint).name, std::string(nameOf(asked.purpose)));
    d.jointId = asked.joint;
    d.box = asked.extent;
    d.asked = largest(asked.extent);
    d.workable = !addsWood(asked);
    out_.push_back(std::move(d));
  }

  /// The worst of the six sides of a feature: wood that is missing before wood that is too much.
  void place(const MadeFeature& made, const Feature& asked) {
    const bool adds = addsWood(asked);
    double worst = lengthBy(RuleId::markTolerance).mm();
    std::optional<MarkDifference> found;
    for (const bool missing : {true, false}) {
      for (int axis = 0; axis < 3; ++axis) {
        const double shift = asked.face.axis == axis ? endShift(asked, axis, grown_) : shift_[axis];
        const double low = made.extent.min[axis] + shift - asked.extent.min[axis];
        const double high = asked.extent.max[axis] - made.extent.max[axis] - shift;
        // Both are above 0 where the design asks for a larger feature than was made.
        for (const double grows : {low, high}) {
          const double lacking = adds == missing ? grows : -grows;
          if (lacking <= worst) continue;
          worst = lacking;
          MarkDifference d = named(MarkDifference::What::feature, made.joint, made.purpose);
          d.jointId = asked.joint;
          d.axis = partAxis(axis);
          d.asked = lacking;
          d.moved = !differ(low, -high) && differ(low, 0) ? high : 0;
          d.workable = !missing;
          d.box = asked.extent.united(made.extent);
          found = std::move(d);
        }
      }
      if (found) break;
    }
    if (found) out_.push_back(std::move(*found));
  }

  [[nodiscard]] MarkDifference named(MarkDifference::What what, const std::string& joint,
                                     const std::string& purpose) const {
    MarkDifference d;
    d.part = part_.id;
    d.what = what;
    d.joint = joint;
    d.purpose = purpose;
    return d;
  }
  static double largest(const Box3& box) {
    const Vec3 s = box.size();
    return std::max({s.x, s.y, s.z});
  }

  const Piece& piece_;
  const PlacedPart& part_;
  const Mark& mark_;
  std::vector<MarkDifference>& out_;
  Vec3 grown_;  ///< of the blank since it was marked
  Vec3 shift_;  ///< of features that stand on no end
};

}  // namespace

std::string_view nameOf(MarkState state) {
  return kStates[static_cast<std::size_t>(state)];
}

std::optional<MarkState> markStateNamed(std::string_view name) {
  const auto found = std::ranges::find(kStates, name);
  if (found == kStates.end()) return std::nullopt;
  return static_cast<MarkState>(found - kStates.begin());
}

std::string_view fixedBy(MarkState state) {
  switch (state) {
    case MarkState::rough:
      return "nothing";
    case MarkState::machined:
      return "width and thickness";
    case MarkState::cut:
      return "length, width and thickness";
    case MarkState::jointed:
      return "all sizes and joints";
  }
  return "";
}

const Mark* markOf(const Model& model, const std::string& part) {
  const auto found = std::ranges::find(model.marks, part, &Mark::part);
  return found == model.marks.end() ? nullptr : &*found;
}

Mark markFor(const Piece& piece, PartId id, MarkState state) {
  const PlacedPart& part = piece.parts[id.index()];
  Mark mark;
  mark.part = piece.part(id).name;
  mark.state = state;
  if (state == MarkState::rough) return mark;
  mark.overall = part.overall().size();
  mark.blank = part.size;
  if (state != MarkState::jointed) return mark;
  for (const Feature& feature : part.features) {
    if (!isMade(feature)) continue;
    mark.features.push_back(
        {piece.joint(feature.joint).name, std::string(nameOf(feature.purpose)), feature.extent});
  }
  return mark;
}

std::vector<MarkDifference> differencesFromMarks(const Piece& piece) {
  std::vector<MarkDifference> differences;
  if (looksPastTheWood(piece)) return differences;
  for (const Mark& mark : piece.model.marks) {
    const PlacedPart* part = partOf(piece, mark);
    if (part == nullptr || mark.state == MarkState::rough) continue;
    Comparison(piece, *part, mark, differences).run();
  }
  return differences;
}

std::vector<double> misfits(const Piece& piece) {
  std::vector<double> numbers;
  if (looksPastTheWood(piece)) return numbers;
  for (const Mark& mark : piece.model.marks) {
    const PlacedPart* part = partOf(piece, mark);
    if (part == nullptr) continue;
    const Vec3 overall = part->overall().size() + (part->asked - part->size);
    for (int axis = 0; axis < 3; ++axis) {
      if (fixes(mark.state, partAxis(axis))) numbers.push_back(overall[axis] - mark.overall[axis]);
    }
    if (mark.state != MarkState::jointed) continue;
    const Vec3 grown = part->size - mark.blank;
    for (int axis = 0; axis < 3; ++axis) numbers.push_back(part->asked[axis] - mark.blank[axis]);
    double unmatched = 0;
    for (const Match& match : matchesOf(piece, *part, mark)) {
      if (match.asked == nullptr || match.made == nullptr) unmatched += kUnmatched;
      if (match.made == nullptr) continue;
      for (int axis = 0; axis < 3; ++axis) {
        const double shift = match.asked ? endShift(*match.asked, axis, grown) : 0;
        const auto off = [&](double asked, double made) { return asked - made - shift; };
        numbers.push_back(
            match.asked ? off(match.asked->extent.min[axis], match.made->extent.min[axis]) : 0);
        numbers.push_back(
            match.asked ? off(match.asked->extent.max[axis], match.made->extent.max[axis]) : 0);
      }
    }
    numbers.push_back(unmatched);
  }
  return numbers;
}

}  // namespace dryfit::joinery

#include "export/drawing/feature_rows.h"

#include "joinery/piece/over_run.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <numbers>
#include <set>
#include <tuple>

#include "export/drawing/leaning_cut.h"
#include "export/lists/slant_note.h"
#include "joinery/formula/length_text.h"
#include "joinery/piece/true_lengths.h"
#include "kernel/tolerance.h"

namespace dryfit::exporting {
namespace {

using joinery::Feature;
using joinery::LocalFace;
using joinery::PlacedPart;
using joinery::Unit;
using kernel::Vec3;

long long rounded(double mm) {
  return std::llround(mm / kernel::kDrawnAlike);
}

/// How a tool that is not square to the part is turned: its axes, in steps of 0.0001. Square and
/// round tools are alike in this.
std::vector<long long> turnOf(const Feature& f) {
  constexpr double kStep = 1e-4;
  const kernel::Frame* frame = nullptr;
  if (const auto* block = std::get_if<kernel::Block>(&f.tool)) frame = &block->frame;
  if (const auto* prism = std::get_if<kernel::Prism>(&f.tool)) frame = &prism->frame;
  std::vector<long long> turn;
  if (frame == nullptr || frame->isSquare()) return turn;
  for (int i = 0; i < 3; ++i) {
    for (int k = 0; k < 3; ++k) turn.push_back(std::llround(frame->axis(i)[k] / kStep));
  }
  return turn;
}

/// What equal features have in common. Where square and round ones lie along the part may differ:
/// their row lists the places. A sloped one is given by its places at two sides, so those are the
/// same. Of an end, an edge or a side that carries a tenon or tongue it does not matter which of
/// the two it is, as long as the wood starts at one place on both.
auto likenessOf(const PlacedPart& part, const Feature& f) {
  const Vec3 size = workedExtent(part, f).size();
  const bool end = f.face.axis == 0;
  const bool anySide = standsOut(f.purpose) || end;
  const auto across = [&](int axis) {
    return f.face.axis == axis ? 0 : rounded(f.extent.min[axis]);
  };
  const auto slope = slopeOf(f);
  const long long start = slope             ? rounded(slope->sidesAt(0)[0])
                          : anySide && !end ? rounded(f.extent.min.x)
                                            : 0;
  return std::tuple(f.purpose, f.through, stoppedEnds(part, f), isRound(f), f.face.axis,
                    anySide || f.face.far, rounded(size.x), rounded(size.y), rounded(size.z),
                    across(1), across(2), start, slope ? rounded(slope->width) : 0, turnOf(f));
}

std::string letterOf(std::size_t index) {
  // I and O are left out: they read as figures.
  static constexpr std::string_view kLetters = "ABCDEFGHJKLMNPQRSTUVWXYZ";
  std::string letter(1, kLetters[index % kLetters.size()]);
  if (index >= kLetters.size()) letter += std::to_string(index / kLetters.size());
  return letter;
}

/// The row that has the feature.
const FeatureRow& rowWith(const std::vector<FeatureRow>& rows, std::size_t feature) {
  return *std::ranges::find_if(rows, [&](const FeatureRow& row) {
    return std::ranges::find(row.features, feature) != row.features.end();
  });
}

/// Words and numbers of one row.
class RowWriter {
 public:
  RowWriter(const joinery::Piece& piece, const PlacedPart& part, Unit unit)
      : piece_(piece), part_(part), pose_(poseOf(part)), datum_(datumOf(part)), unit_(unit) {}

  void write(FeatureRow& row) const {
    const Feature& first = feature(row, 0);
    row.name = nameText(row);
    row.size = sizeText(first);
    row.depth = depthText(first);
    row.start = startText(row);
    row.fromEdge = acrossText(first, pose_.faceEdge);
    row.fromSide = acrossText(first, pose_.faceSide);
    row.mate = mateText(row);
  }

 private:
  [[nodiscard]] const Feature& feature(const FeatureRow& row, std::size_t i) const {
    return part_.features[row.features[i]];
  }
  [[nodiscard]] std::string length(double mm) const {
    return joinery::lengthText(Length::mm(mm), unit_);
  }

  /// True where the feature runs from one side of the blank to the other along the axis.
  [[nodiscard]] bool runsOut(const Feature& f, int axis) const {
    return reachesBothEnds(part_, f, axis);
  }

  [[nodiscard]] std::string faceText(LocalFace face) const {
    if (face.axis == 0) return face.far ? "far end" : "datum end";
    if (face.axis == pose_.faceSide.axis) {
      return face == pose_.faceSide ? "face side" : "back";
    }
    return face == pose_.faceEdge ? "face edge" : "opposite edge";
  }

  [[nodiscard]] std::string nameText(const FeatureRow& row) const {
    const Feature& first = feature(row, 0);
    std::string name = sentenceCase(std::string(joinery::nameOf(first.purpose)));
    if (const int ends = stoppedEnds(part_, first); ends > 0) {
      name += ends == 1 ? ", stopped at one end" : ", stopped at both ends";
    }
    if (const auto slope = slopeOf(first)) {
      name += fmt::format(", {} off square", degreesText(slope->degrees));
    }
    std::set<std::string> faces;
    for (std::size_t i = 0; i < row.features.size(); ++i) {
      faces.insert(faceText(feature(row, i).face));
    }
    name += standsOut(first.purpose) ? " on " : " in ";
    if (faces.size() == 1) return name + *faces.begin() + leanText(first);
    if (first.face.axis == 0) return name + "both ends";
    return name + (first.face.axis == pose_.faceEdge.axis ? "both edges" : "both sides");
  }

  /// How a cut that goes in out of square leans.
  [[nodiscard]] std::string leanText(const Feature& f) const {
    const auto leaning = leaningCut(part_, f);
    if (!leaning) return "";
    const int across = 3 - f.face.axis;
    std::string text =
        fmt::format(", {} off square, going in toward the {}", degreesText(leaning->degrees),
                    faceText({leaning->axis, leaning->degrees > 0}));
    if (std::fabs(leaning->degreesAcross) >= 0.005) {
      const int other = leaning->axis == 0 ? across : 0;
      text += fmt::format(", and {} toward the {}", degreesText(leaning->degreesAcross),
                          faceText({other, leaning->degreesAcross > 0}));
    }
    return text;
  }

  [[nodiscard]] std::string sizeText(const Feature& f) const {
    const auto leaning = leaningCut(part_, f);
    const Vec3 size = leaning ? leaning->opening.size() : workedExtent(part_, f).size();
    if (isRound(f))
      return "⌀ " + length(std::min(size[(f.face.axis + 1) % 3], size[(f.face.axis + 2) % 3]));
    if (const auto slope = slopeOf(f)) {
      return stoppedEnds(part_, f) == 2 ? length(slope->length) + " × " + length(slope->width)
                                        : length(slope->width) + " wide";
    }
    // The longer way first: along the part, then across its width.
    const int first = f.face.axis == 0 ? 1 : 0;
    const int second = f.face.axis == 2 ? 1 : 2;
    if (!standsOut(f.purpose) && runsOut(f, first)) return length(size[second]) + " wide";
    if (!standsOut(f.purpose) && runsOut(f, second)) return length(size[first]) + " wide";
    return length(size[first]) + " × " + length(size[second]);
  }

  [[nodiscard]] std::string depthText(const Feature& f) const {
    if (!standsOut(f.purpose)) {
      if (f.through) return "through";
      const auto leaning = leaningCut(part_, f);
      if (!leaning) return length(f.extent.size()[f.face.axis]);
      const auto wall = [&](bool far) {
        const std::string name = leaning->axis != 0 ? faceText({leaning->axis, far})
                                 : far              ? "far wall"
                                                    : "near wall";
        return name + " " + length(leaning->walls[far ? 1 : 0]);
      };
      return wall(false) + ", " + wall(true);
    }
    const auto lines = joinery::shoulderLines(part_);
    if (f.face.axis != 0 || lines.ends[f.face.far ? 1 : 0].isSquare()) {
      return length(f.extent.size()[f.face.axis]);
    }
    // A slanting shoulder is measured from where it is knifed: on the edge of the datum.
    const auto& edge = lines.at(part_.faceEdge.far, part_.faceSide.far);
    return length(f.face.far ? f.extent.max.x - edge.hi : edge.lo - f.extent.min.x) +
           " at face edge";
  }

  [[nodiscard]] std::string startText(const FeatureRow& row) const {
    const Feature& first = feature(row, 0);
    if (first.face.axis == 0) return "–";
    if (runsOut(first, 0)) return "full length";
    if (const auto slope = slopeOf(first)) return slopedStart(*slope);
    if (leaningCut(part_, first)) return leaningStart(row);
    std::vector<double> starts;
    for (const std::size_t i : row.features) {
      const Feature& f = part_.features[i];
      starts.push_back((isRound(f) ? f.extent.centre().x : workedExtent(part_, f).min.x) - datum_);
    }
    std::ranges::sort(starts);
    std::string text = isRound(first) ? "centre " : "";
    std::string last;
    for (const double start : starts) {
      const std::string here =
          start < -kernel::kDrawnAlike ? length(-start) + " beyond datum" : length(start);
      if (here == last) continue;
      text += (last.empty() ? "" : ", ") + here;
      last = here;
    }
    return text;
  }

  /// Where leaning cuts open on the face that they enter by, and on the one they come out of.
  [[nodiscard]] std::string leaningStart(const FeatureRow& row) const {
    std::string text;
    for (const std::size_t i : row.features) {
      const Feature& f = part_.features[i];
      const auto leaning = leaningCut(part_, f);
      text += (text.empty() ? "" : ", ") + length(leaning->opening.min.x - datum_);
      if (!leaning->exit) continue;
      text +=
          fmt::format(" at {}, {} at {}", faceText(f.face), length(leaning->exit->min.x - datum_),
                      faceText({f.face.axis, !f.face.far}));
    }
    return text;
  }

  /// Where a sloped cut starts at the two sides of its face.
  [[nodiscard]] std::string slopedStart(const Slope& slope) const {
    const bool edges = slope.across == pose_.faceEdge.axis;
    const LocalFace near = edges ? pose_.faceEdge : pose_.faceSide;
    const double size = part_.size[slope.across];
    return fmt::format("{} at {}, {} at {}", length(slope.sidesAt(near.far ? size : 0)[0] - datum_),
                       faceText(near), length(slope.sidesAt(near.far ? 0 : size)[0] - datum_),
                       faceText({near.axis, !near.far}));
  }

  [[nodiscard]] std::string acrossText(const Feature& f, LocalFace reference) const {
    const int axis = reference.axis;
    if (f.face.axis == axis) return "–";
    if (runsOut(f, axis)) return isRound(f) ? "" : "full width";
    const double plane = reference.far ? part_.size[axis] : 0;
    if (const auto leaning = leaningCut(part_, f)) {
      return length(reference.far ? plane - leaning->opening.max[axis]
                                  : leaning->opening.min[axis]);
    }
    if (isRound(f)) return "centre " + length(std::fabs(f.extent.centre()[axis] - plane));
    const double nearer = reference.far ? plane - f.extent.max[axis] : f.extent.min[axis];
    return length(nearer);
  }

  [[nodiscard]] std::string mateText(const FeatureRow& row) const {
    std::vector<std::string> names;
    const auto name = [&](joinery::PartId id) {
      const std::string label = piece_.label(id);
      if (std::ranges::find(names, label) == names.end()) names.push_back(label);
    };
    for (const std::size_t i : row.features) {
      for (const joinery::PartId id : matesOf(part_.features[i])) name(id);
    }
    std::string text;
    for (const std::string& n : names) text += (text.empty() ? "" : ", ") + n;
    return text;
  }

  /// The parts that a feature meets.
  [[nodiscard]] std::vector<joinery::PartId> matesOf(const Feature& f) const {
    const auto& mates = piece_.joints[f.joint.index()].mates;
    if (mates.empty()) return {};
    // The first mate goes into the others.
    if (mates.front() != part_.id) return {mates.front()};
    std::vector<joinery::PartId> others(std::next(mates.begin()), mates.end());
    // Of a panel's frame only the member that this side goes into.
    const kernel::Box3 place = kernel::boundsOf(part_.frame, f.extent);
    const auto shared = [&](joinery::PartId id) {
      const PlacedPart& mate = piece_.parts[id.index()];
      return place.common(kernel::boundsOf(mate.frame, mate.blank())).volume();
    };
    double most = 0;
    for (const joinery::PartId id : others) most = std::max(most, shared(id));
    // A side's own member takes most of it; its neighbours take no more than the corners.
    constexpr double kOwn = 0.2;
    if (most > 0)
      std::erase_if(others, [&](joinery::PartId id) { return shared(id) < kOwn * most; });
    return others;
  }

  const joinery::Piece& piece_;
  const PlacedPart& part_;
  PartPose pose_;
  double datum_;  ///< along the part
  Unit unit_;
};

}  // namespace

PartPose poseOf(const PlacedPart& part) {
  PartPose pose{part.faceSide, part.faceEdge, {}, {}, {}};
  if (pose.faceSide.axis == 0) pose.faceSide = {2, false};
  if (pose.faceEdge.axis == 0 || pose.faceEdge.axis == pose.faceSide.axis) {
    pose.faceEdge = {3 - pose.faceSide.axis, false};
  }
  pose.out = pose.faceSide.outward();
  pose.up = pose.faceEdge.outward();
  pose.right = pose.up.cross(pose.out);
  return pose;
}

std::string sentenceCase(std::string words) {
  if (!words.empty()) {
    words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
  }
  return words;
}

int countOf(const PlacedPart& part, const FeatureRow& row) {
  const auto ofItsOwn = std::ranges::count_if(row.features, [&](std::size_t i) {
    const auto with = cutWith(part, part.features[i]);
    return !with || std::ranges::find(row.features, *with) == row.features.end();
  });
  return std::max(1, static_cast<int>(ofItsOwn));
}

std::vector<FeatureRow> featureRows(const joinery::Piece& piece, const PlacedPart& part,
                                    Unit unit) {
  std::vector<FeatureRow> rows;
  for (std::size_t i = 0; i < part.features.size(); ++i) {
    if (isSlantedEnd(part.features[i])) continue;
    const auto same = std::ranges::find_if(rows, [&](const FeatureRow& row) {
      return likenessOf(part, part.features[row.features.front()]) ==
             likenessOf(part, part.features[i]);
    });
    if (same != rows.end()) {
      same->features.push_back(i);
    } else {
      rows.push_back(
          {letterOf(rows.size()), {i}, part.features[i].purpose, {}, {}, {}, {}, {}, {}, {}});
    }
  }
  const RowWriter writer(piece, part, unit);
  for (FeatureRow& row : rows) writer.write(row);
  for (FeatureRow& row : rows) {
    const auto with = cutWith(part, part.features[row.features.front()]);
    if (!with) continue;
    const std::string& letter = rowWith(rows, *with).letter;
    if (letter != row.letter) row.name += ", cut with " + letter;
  }
  return rows;
}

}  // namespace dryfit::exporting

#include "kernel/src/bores.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "kernel/tolerance.h"

namespace dryfit::kernel {
namespace {

/// The axis that a direction runs along, or -1.
int axisOf(Vec3 direction) {
  for (int axis = 0; axis < 3; ++axis) {
    if (std::fabs(direction[axis]) != 1) continue;
    const bool leans = std::fabs(direction[(axis + 1) % 3]) > kAlongAxis ||
                       std::fabs(direction[(axis + 2) % 3]) > kAlongAxis;
    return leans ? -1 : axis;
  }
  return -1;
}

std::optional<RoundHole> roundHole(const Tool& tool) {
  const Cylinder* cylinder = std::get_if<Cylinder>(&tool);
  if (!cylinder) return {};
  const int axis = axisOf(cylinder->axis);
  // Written so that a value that is not a number fails.
  const bool sound = axis >= 0 && cylinder->radius >= kContact && cylinder->radius <= kLargest &&
                     cylinder->height >= kContact && cylinder->height <= kLargest;
  if (!sound) return {};
  RoundHole hole;
  hole.axis = axis;
  hole.up = cylinder->axis[axis] > 0;
  hole.at = cylinder->base;
  hole.radius = cylinder->radius;
  const double from = cylinder->base[axis];
  hole.low = hole.up ? from : from - cylinder->height;
  hole.high = hole.up ? from + cylinder->height : from;
  for (int i = 0; i < 3; ++i) {
    if (!(std::fabs(hole.at[i]) <= kLargest)) return {};
  }
  return hole;
}

/// The square bar round a hole, `grown` on its four sides and at both ends.
Box3 barRound(const RoundHole& hole, double grown) {
  Box3 bar{hole.at, hole.at};
  bar = bar.grown(hole.radius + grown);
  bar.min.set(hole.axis, hole.low - grown);
  bar.max.set(hole.axis, hole.high + grown);
  return bar;
}

/// Where along its axis a hole meets wood; the wood there fills the bar round the hole. Empty where
/// the hole takes none.
struct Stretch {
  double low, high;
  bool empty = false;
};

std::optional<Stretch> woodAlong(const SquareWork& work, const RoundHole& hole) {
  const Box3 bar = barRound(hole, kBoreClear);
  Stretch found{bar.max[hole.axis], bar.min[hole.axis], true};
  double volume = 0;
  for (const Box3& box : work.boxes) {
    const Box3 piece = box.common(bar);
    if (piece.empty()) continue;
    found.low = std::fmin(found.low, piece.min[hole.axis]);
    found.high = std::fmax(found.high, piece.max[hole.axis]);
    found.empty = false;
    volume += piece.volume();
  }
  if (found.empty) return found;
  const double deep = std::fmin(found.high, hole.high) - std::fmax(found.low, hole.low);
  if (deep <= kSnap) return Stretch{found.low, found.high, true};  // it touches wood and takes none
  if (deep < kBoreClear) return {};
  const double side = 2 * (hole.radius + kBoreClear);
  const double length = found.high - found.low;
  // Less than any step or slot across the bar, which are `kSnap` high at least.
  const double rounding = kSnap / 4 * side * std::fmin(side, length);
  if (std::fabs(side * side * length - volume) > rounding) return {};
  return found;
}

/// Twice-crossed or not: whether `p` lies within a loop, seen along the face's axis.
bool within(const SquareWork& work, const SquareWork::Loop& loop, int axis, Point3 p) {
  const int b = (axis + 1) % 3;
  const int c = (axis + 2) % 3;
  bool inside = false;
  for (auto i = loop.first; i < loop.last; ++i) {
    const SquareWork::Edge& edge = work.edges[work.uses[i].edge];
    if (edge.axis != c) continue;
    const Point3 from = work.at(work.corners[edge.from]);
    const Point3 to = work.at(work.corners[edge.to]);
    if (from[b] > p[b] && from[c] <= p[c] && p[c] < to[c]) inside = !inside;
  }
  return inside;
}

/// The face at `at` along the hole's axis, looking that way, on which the hole's middle lies.
std::int32_t faceAt(const SquareWork& work, const RoundHole& hole, double at, bool looksUp) {
  for (std::size_t f = 0; f < work.faces.size(); ++f) {
    const SquareWork::Face& face = work.faces[f];
    if (face.axis != hole.axis || face.looksUp != looksUp) continue;
    if (work.coordinates[face.axis][face.plane] != at) continue;
    bool on = within(work, work.loops[face.firstLoop], face.axis, hole.at);
    for (auto loop = face.firstLoop + 1; on && loop < face.lastLoop; ++loop) {
      on = !within(work, work.loops[loop], face.axis, hole.at);
    }
    if (on) return static_cast<std::int32_t>(f);
  }
  return -1;
}

int shellOf(const SquareWork& work, std::int32_t face) {
  for (std::size_t s = 0; s < work.shells.size(); ++s) {
    if (face >= work.shells[s].firstFace && face < work.shells[s].lastFace) return int(s);
  }
  return -1;
}

/// How a hole ends where it comes from or goes to.
enum class End { open, inWood, unclear };

/// `beyond`: how far the wood reaches past the hole's end (negative: short of it).
End endOf(double beyond) {
  if (beyond <= kSnap) return End::open;
  return beyond >= kBoreClear * (1 - kRelative) ? End::inWood : End::unclear;
}

std::optional<SquareWork::Bore> boreOf(const SquareWork& work, const RoundHole& hole,
                                       const Stretch& wood) {
  const End low = endOf(hole.low - wood.low);
  const End high = endOf(wood.high - hole.high);
  if (low == End::unclear || high == End::unclear) return {};
  if (low == End::inWood && high == End::inWood) return {};
  const double from = low == End::open ? wood.low : hole.low;
  const double to = high == End::open ? wood.high : hole.high;
  SquareWork::Bore bore;
  bore.axis = hole.axis;
  // Bored from the open end; a through hole from where its tool comes.
  bore.up = low == End::open && (high == End::inWood || hole.up);
  bore.radius = hole.radius;
  bore.depth = to - from;
  bore.mouth = hole.at;
  bore.mouth.set(hole.axis, bore.up ? from : to);
  bore.mouthFace = faceAt(work, hole, bore.mouth[hole.axis], !bore.up);
  if (bore.mouthFace < 0) return {};
  if (low == End::open && high == End::open) {
    bore.exitFace = faceAt(work, hole, bore.up ? to : from, bore.up);
    if (bore.exitFace < 0) return {};
    if (shellOf(work, bore.mouthFace) != shellOf(work, bore.exitFace)) return {};
  }
  return bore;
}

bool boreEach(SquareWork& work, std::span<const RoundHole> holes) {
  work.bores.clear();
  std::vector<Box3> taken;
  for (const RoundHole& hole : holes) {
    const auto wood = woodAlong(work, hole);
    if (!wood) return false;
    if (wood->empty) continue;
    const auto made = boreOf(work, hole, *wood);
    if (!made) return false;
    const Box3 own = boundsOf(*made).grown(kBoreClear);
    for (const Box3& other : taken) {
      if (!own.common(other).empty()) return false;
    }
    taken.push_back(own);
    work.bores.push_back(*made);
  }
  return true;
}

void putMeasuresRight(SquareWork& work) {
  using std::numbers::pi;
  Vec3 moment = (work.centroid - work.bounds.min) * work.volume;
  for (const SquareWork::Bore& b : work.bores) {
    const double opening = pi * b.radius * b.radius;
    const double taken = opening * b.depth;
    Point3 middle = b.mouth;
    middle.set(b.axis, b.mouth[b.axis] + (b.up ? 0.5 : -0.5) * b.depth);
    moment = moment - (middle - work.bounds.min) * taken;
    work.volume -= taken;
    work.area += 2 * pi * b.radius * b.depth - (b.exitFace < 0 ? 0 : 2 * opening);
  }
  work.centroid = work.bounds.min + moment * (1 / work.volume);
}

}  // namespace

std::optional<BoredRecipe> takeApart(const Recipe& recipe) {
  BoredRecipe parts{{recipe.blank, {}}, {}};
  for (const Step& step : recipe.steps) {
    Step square{step.kind, {}};
    for (const Tool& tool : step.tools) {
      if (std::holds_alternative<Block>(tool)) {
        square.tools.push_back(tool);
        // Wood put on later would close the hole again.
        const bool covers =
            step.kind == Step::Kind::add &&
            std::any_of(parts.holes.begin(), parts.holes.end(), [&](const RoundHole& hole) {
              return !barRound(hole, kBoreClear).common(boundsOf(tool)).empty();
            });
        if (covers) return {};
        continue;
      }
      const auto hole = step.kind == Step::Kind::remove ? roundHole(tool) : std::nullopt;
      if (!hole) return {};
      parts.holes.push_back(*hole);
    }
    if (!square.tools.empty()) parts.square.steps.push_back(std::move(square));
  }
  return parts;
}

bool bore(SquareWork& work, std::span<const RoundHole> holes) {
  if (!boreEach(work, holes)) return false;
  if (!work.bores.empty()) putMeasuresRight(work);
  return true;
}

Box3 boundsOf(const SquareWork::Bore& bore) {
  Box3 box{bore.mouth, bore.mouth};
  box = box.grown(bore.radius);
  const double mouth = bore.mouth[bore.axis];
  box.min.set(bore.axis, bore.up ? mouth : mouth - bore.depth);
  box.max.set(bore.axis, bore.up ? mouth + bore.depth : mouth);
  return box;
}

}  // namespace dryfit::kernel

#include "kernel/square_work.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "kernel/src/bars_in_line.h"
#include "kernel/src/bores.h"
#include "kernel/src/square_grid.h"
#include "kernel/src/square_parts.h"
#include "kernel/tolerance.h"

namespace dryfit::kernel {
namespace {

/// More words than this (32 MB) and the general way is the better one.
constexpr double kMostWords = 1 << 22;

/// One box as painted: where, and from which to which coordinate on each axis.
struct Stroke {
  Box3 box;
  bool wood = true;
  std::size_t step = 0;
  CellGrid::Index3 low{}, high{};
};

bool known(const Box3& box) {
  for (int axis = 0; axis < 3; ++axis) {
    const double low = box.min[axis];
    const double high = box.max[axis];
    // Written so that a value that is not a number fails.
    if (!(low >= -kLargest && high <= kLargest && high - low >= kContact &&
          high - low <= kLargest)) {
      return false;
    }
  }
  return true;
}

const Block* squareBlock(const Tool& tool) {
  const Block* block = std::get_if<Block>(&tool);
  return block && block->frame == Frame{} ? block : nullptr;
}

tl::unexpected<Error> notSquare() {
  return fail(ErrorCode::badDimension, "the part is not made of sound boxes square to it");
}

/// The boxes in the order they are painted. Removals are cut back to the box round the wood so far,
/// so that a tool that over-runs the part brings no cells of its own.
std::optional<std::vector<Stroke>> strokesOf(const Recipe& recipe) {
  const Block* blank = squareBlock(recipe.blank);
  if (!blank || !known(blank->box)) return {};
  std::size_t count = 1;
  for (const Step& step : recipe.steps) count += step.tools.size();
  std::vector<Stroke> strokes;
  strokes.reserve(count);
  strokes.push_back({blank->box});
  Box3 reach = blank->box;
  for (std::size_t s = 0; s < recipe.steps.size(); ++s) {
    const bool wood = recipe.steps[s].kind == Step::Kind::add;
    for (const Tool& tool : recipe.steps[s].tools) {
      const Block* block = squareBlock(tool);
      if (!block || !known(block->box)) return {};
      if (wood) reach = reach.united(block->box);
      const Box3 box = wood ? block->box : block->box.common(reach);
      if (!box.empty()) strokes.push_back({box, wood, s + 1});
    }
  }
  return strokes;
}

/// Sorts the coordinates of all strokes on one axis, makes one of those closer than `kSnap` to the
/// least of their bunch, and tells each stroke where its ends are.
std::vector<double> sortAxis(std::vector<Stroke>& strokes, int axis) {
  struct End {
    double at;
    Stroke* stroke;
    bool high;
  };
  std::vector<End> ends;
  ends.reserve(2 * strokes.size());
  for (Stroke& stroke : strokes) {
    ends.push_back({stroke.box.min[axis], &stroke, false});
    ends.push_back({stroke.box.max[axis], &stroke, true});
  }
  std::sort(ends.begin(), ends.end(), [](const End& a, const End& b) { return a.at < b.at; });
  std::vector<double> coordinates;
  coordinates.reserve(ends.size());
  for (const End& end : ends) {
    if (coordinates.empty() || end.at - coordinates.back() >= kSnap) coordinates.push_back(end.at);
    (end.high ? end.stroke->high : end.stroke->low)[axis] = int(coordinates.size()) - 1;
  }
  return coordinates;
}

/// The wood cell by cell; nothing when some step leaves none.
std::optional<CellGrid> painted(const std::vector<Stroke>& strokes, const CellGrid::Index3& cells) {
  CellGrid grid(cells);
  for (std::size_t i = 0; i < strokes.size(); ++i) {
    const Stroke& stroke = strokes[i];
    grid.paint(stroke.low, stroke.high, stroke.wood);
    const bool stepEnds = i + 1 == strokes.size() || strokes[i + 1].step != stroke.step;
    if (!stroke.wood && stepEnds && !grid.anyWood()) return {};
  }
  return grid;
}

}  // namespace

Topology SquareWork::topology() const {
  // A bore brings its wall and, where it is blind, its bottom; two circles and the seam that joins
  // them; the seam's two ends.
  const auto bored = int(bores.size());
  const auto blind =
      int(std::count_if(bores.begin(), bores.end(), [](const Bore& b) { return b.exitFace < 0; }));
  return {int(lumps.size()), int(shells.size()), int(faces.size()) + bored + blind,
          int(edges.size()) + 3 * bored, int(corners.size()) + 2 * bored};
}

Result<SquareWork> arrange(const Recipe& recipe) {
  auto strokes = strokesOf(recipe);
  if (!strokes) return notSquare();
  SquareWork work;
  CellGrid::Index3 cells{};
  for (int axis = 0; axis < 3; ++axis) {
    work.coordinates[axis] = sortAxis(*strokes, axis);
    cells[axis] = int(work.coordinates[axis].size()) - 1;
  }
  if (CellGrid::wordsFor(cells) > kMostWords) {
    return fail(ErrorCode::badDimension, "the part has too many different coordinates to count");
  }
  const auto grid = painted(*strokes, cells);
  if (!grid) return fail(ErrorCode::emptyResult, "no wood is left");

  const auto network = cornersAndEdges(*grid, work);
  if (!network) return tl::unexpected(network.error());
  measureBoxes(*grid, work);
  traceFaces(*network, work);
  gatherShells(work);
  return work;
}

Result<SquareWork> arrangeBored(const Recipe& recipe) {
  const auto parts = takeApart(recipe);
  if (!parts) return notSquare();
  auto work = arrange(parts->square);
  if (!work || bore(*work, parts->holes)) return work;
  // Holes that go on in each other are clear of each other once they are one.
  const auto joined = takeApart(withBarsJoined(recipe).recipe);
  if (joined && bore(*work, joined->holes)) return work;
  return fail(ErrorCode::badDimension, "a round hole is not clear of the part's edges or holes");
}

SquareWork arrangeBox(const Box3& box) {
  // Sound as it is: a box refuses none of the steps of `arrange`.
  Recipe recipe{Block{box, {}}, {}};
  return *arrange(recipe);
}

}  // namespace dryfit::kernel

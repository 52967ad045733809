#include "joinery/checks/round_cuts.h"

#include <cmath>
#include <variant>

#include "joinery/checks/wood.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery::checking {
namespace {

using kernel::Box3;

/// A hole within its part: a disc of `radius` round (u, v), from `low` to `high` along `axis`.
struct Hole {
  int axis = 0;
  double u = 0, v = 0, radius = 0;
  double low = 0, high = 0;
};

std::optional<Hole> holeOf(const Box3& overall, const Feature& cut) {
  const auto* tool = std::get_if<kernel::Cylinder>(&cut.tool);
  if (tool == nullptr) return {};
  Hole hole;
  while (hole.axis < 3 && std::fabs(tool->axis[hole.axis]) != 1) ++hole.axis;
  if (hole.axis == 3) return {};
  for (const int side : {(hole.axis + 1) % 3, (hole.axis + 2) % 3}) {
    if (std::fabs(tool->axis[side]) > kernel::kAlongAxis) return {};
  }
  const Box3 whole = kernel::boundsOf(cut.tool);
  for (const int side : {(hole.axis + 1) % 3, (hole.axis + 2) % 3}) {
    if (whole.min[side] < overall.min[side] || whole.max[side] > overall.max[side]) return {};
  }
  const Box3 within = whole.common(overall);
  hole.u = tool->base[(hole.axis + 1) % 3];
  hole.v = tool->base[(hole.axis + 2) % 3];
  hole.radius = tool->radius;
  hole.low = within.min[hole.axis];
  hole.high = within.max[hole.axis];
  return hole;
}

double apart(double low, double high, double otherLow, double otherHigh) {
  return std::fmax(0, std::fmax(low - otherHigh, otherLow - high));
}

double wallToBox(const Hole& hole, const Box3& box) {
  const int u = (hole.axis + 1) % 3;
  const int v = (hole.axis + 2) % 3;
  const double across = std::hypot(apart(hole.u, hole.u, box.min[u], box.max[u]),
                                   apart(hole.v, hole.v, box.min[v], box.max[v]));
  return std::hypot(std::fmax(0, across - hole.radius),
                    apart(hole.low, hole.high, box.min[hole.axis], box.max[hole.axis]));
}

double wallToHole(const Hole& a, const Hole& b) {
  const double across = std::hypot(a.u - b.u, a.v - b.v) - a.radius - b.radius;
  return std::hypot(std::fmax(0, across), apart(a.low, a.high, b.low, b.high));
}

}  // namespace

std::optional<double> roundWall(const Box3& overall, const Feature& a, const Feature& b) {
  const auto first = holeOf(overall, a);
  const auto second = holeOf(overall, b);
  if (first && second) {
    if (first->axis != second->axis) return {};
    return wallToHole(*first, *second);
  }
  if (first && isSquare(b)) return wallToBox(*first, reach(overall, b));
  if (second && isSquare(a)) return wallToBox(*second, reach(overall, a));
  return {};
}

}  // namespace dryfit::joinery::checking

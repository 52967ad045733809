#include "joinery/piece/true_lengths.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <variant>

#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

using kernel::Point3;
using kernel::Vec3;

/// A plane in the part's frame; the wood lies behind it, against the normal.
struct Plane {
  Point3 at;
  Vec3 normal;
};

/// The face of a cut that the shoulder is left against: the one that looks back along the part.
std::optional<Plane> shoulderOf(const Feature& feature) {
  const auto* block = std::get_if<kernel::Block>(&feature.tool);
  if (block == nullptr) return std::nullopt;
  const Vec3 out = feature.face.outward();
  std::optional<Plane> shoulder;
  double best = 0;
  for (int axis = 0; axis < 3; ++axis) {
    for (const bool far : {false, true}) {
      Vec3 normal;
      normal.set(axis, far ? 1 : -1);
      normal = block->frame.turn(normal);
      if (normal.dot(out) >= best) continue;
      best = normal.dot(out);
      shoulder = Plane{block->frame.place(far ? block->box.max : block->box.min), -normal};
    }
  }
  return shoulder;
}

double degreesOf(double slope) {
  return std::atan(slope) * 180 / std::numbers::pi;
}

/// The slope of an end along one axis across the part: how much longer its far side is, per mm.
double slopeOf(const Plane& plane, int axis, bool farEnd) {
  const double perMm = -plane.normal[axis] / plane.normal.x;  // of x, as the axis is followed
  return std::fabs(perMm) < kernel::kParallel ? 0 : farEnd ? perMm : -perMm;
}

/// Where the plane meets the line along the part through (y, z).
double meetingWith(const Plane& plane, double y, double z) {
  const Vec3 n = plane.normal;
  return plane.at.x - (n.y * (y - plane.at.y) + n.z * (z - plane.at.z)) / n.x;
}

/// Moves the ends of all edges to what one end's cuts leave.
void cutEnd(const PlacedPart& part, bool farEnd, ShoulderLines& lines) {
  for (const Feature& feature : part.features) {
    if (feature.stage != Stage::extend || feature.face != LocalFace{0, farEnd}) continue;
    for (auto& across : lines.edges) {
      for (LongEdge& edge : across) {
        if (farEnd) edge.hi = std::fmax(edge.hi, feature.extent.max.x);
        if (!farEnd) edge.lo = std::fmin(edge.lo, feature.extent.min.x);
      }
    }
  }
  for (const Feature& feature : part.features) {
    if (feature.stage != Stage::shape || feature.face != LocalFace{0, farEnd}) continue;
    const auto plane = shoulderOf(feature);
    if (!plane || std::fabs(plane->normal.x) < kernel::kParallel) continue;
    lines.ends[farEnd ? 1 : 0] = {degreesOf(slopeOf(*plane, 1, farEnd)),
                                  degreesOf(slopeOf(*plane, 2, farEnd))};
    for (const bool farWidth : {false, true}) {
      for (const bool farThickness : {false, true}) {
        LongEdge& edge = lines.edges[farWidth ? 1 : 0][farThickness ? 1 : 0];
        const double x =
            meetingWith(*plane, farWidth ? part.size.y : 0, farThickness ? part.size.z : 0);
        if (farEnd) edge.hi = std::fmin(edge.hi, x);
        if (!farEnd) edge.lo = std::fmax(edge.lo, x);
      }
    }
  }
}

template <class Better>
double extremeOf(const ShoulderLines& lines, const Better& better) {
  double found = lines.edges[0][0].length();
  for (const auto& across : lines.edges) {
    for (const LongEdge& edge : across) found = better(found, edge.length());
  }
  return found;
}

}  // namespace

double ShoulderLines::longest() const {
  return extremeOf(*this, [](double a, double b) { return std::fmax(a, b); });
}

double ShoulderLines::shortest() const {
  return extremeOf(*this, [](double a, double b) { return std::fmin(a, b); });
}

ShoulderLines shoulderLines(const PlacedPart& part) {
  ShoulderLines lines;
  for (auto& across : lines.edges) across.fill({0, part.size.x});
  for (const bool farEnd : {false, true}) cutEnd(part, farEnd, lines);
  return lines;
}

}  // namespace dryfit::joinery

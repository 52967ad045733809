#include "export/drawing/projection.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "kernel/tolerance.h"

namespace dryfit::exporting {
namespace {

using kernel::Vec3;
using kernel::ViewLine;

/// Cuts the segment a-b to the box (Liang and Barsky's way); none where it misses.
std::optional<std::array<Point2, 2>> clippedSegment(Point2 a, Point2 b, const Box2& box) {
  double enter = 0;
  double leave = 1;
  const double dx = b.x - a.x;
  const double dy = b.y - a.y;
  const auto edge = [&](double run, double room) {
    if (run == 0) return room >= 0;
    const double t = room / run;
    if (run < 0) {
      enter = std::max(enter, t);
    } else {
      leave = std::min(leave, t);
    }
    return enter <= leave;
  };
  if (!edge(-dx, a.x - box.min.x) || !edge(dx, box.max.x - a.x) || !edge(-dy, a.y - box.min.y) ||
      !edge(dy, box.max.y - a.y)) {
    return std::nullopt;
  }
  return std::array{Point2{a.x + dx * enter, a.y + dy * enter},
                    Point2{a.x + dx * leave, a.y + dy * leave}};
}

std::vector<Point2> scaled(std::vector<Point2> points, double scale) {
  for (Point2& p : points) p = {p.x * scale, p.y * scale};
  return points;
}

bool near(Point2 a, Point2 b) {
  return std::hypot(a.x - b.x, a.y - b.y) < kernel::kSameCorner;
}

/// Where the line x + y = c crosses the visible lines, as x, ascending.
std::vector<double> crossings(const Projection& section, double c) {
  std::vector<double> xs;
  for (const ViewLine& line : section.lines) {
    if (!line.visible) continue;
    for (std::size_t i = 1; i < line.points.size(); ++i) {
      const Point2 a = line.points[i - 1];
      const Point2 b = line.points[i];
      const double da = a.x + a.y - c;
      const double db = b.x + b.y - c;
      if ((da < 0) == (db < 0)) continue;
      xs.push_back(a.x + (b.x - a.x) * (da / (da - db)));
    }
  }
  std::ranges::sort(xs);
  return xs;
}

}  // namespace

Box2 Projection::bounds() const {
  Box2 box;
  for (const ViewLine& line : lines) {
    for (const Point2& p : line.points) box.add(p);
  }
  return box;
}

Point2 Projection::of(kernel::Point3 p) const {
  const Vec3 v = p - kernel::Point3{};
  return {v.dot(eye.right), v.dot(eye.up)};
}

Box2 Projection::of(const kernel::Box3& box) const {
  Box2 flat;
  for (const double x : {box.min.x, box.max.x}) {
    for (const double y : {box.min.y, box.max.y}) {
      for (const double z : {box.min.z, box.max.z}) flat.add(of(kernel::Point3{x, y, z}));
    }
  }
  return flat;
}

Result<Projection> project(std::span<const kernel::Solid> solids, const kernel::Viewpoint& eye) {
  auto lines = kernel::hiddenLines(solids, eye);
  if (!lines) return tl::unexpected(lines.error());
  return Projection{eye, std::move(*lines)};
}

Result<Projection> projectSection(const kernel::Solid& solid, int axis, double at,
                                  const kernel::Viewpoint& eye) {
  // A slice thin enough that its outline is the section's.
  constexpr double kSlice = 0.02;
  kernel::Box3 slice = solid.bounds().grown(1);
  slice.min.set(axis, at - kSlice / 2);
  slice.max.set(axis, at + kSlice / 2);
  const auto tool = kernel::makeBox(slice);
  if (!tool) return tl::unexpected(tool.error());
  const auto cut = kernel::common(solid, std::span(&*tool, 1));
  if (!cut) return tl::unexpected(cut.error());
  auto view = project(std::span(&*cut, 1), eye);
  if (view) {
    std::erase_if(view->lines, [](const ViewLine& line) { return !line.visible; });
  }
  return view;
}

std::vector<std::vector<Point2>> clipped(const std::vector<Point2>& line, const Box2& box) {
  std::vector<std::vector<Point2>> pieces;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const auto part = clippedSegment(line[i - 1], line[i], box);
    if (!part || near((*part)[0], (*part)[1])) continue;
    if (!pieces.empty() && near(pieces.back().back(), (*part)[0])) {
      pieces.back().push_back((*part)[1]);
    } else {
      pieces.push_back({(*part)[0], (*part)[1]});
    }
  }
  return pieces;
}

Ink inkOf(const Projection& view, double scale, const std::optional<Box2>& window) {
  Ink ink;
  // Hidden lines first, so that visible ones lie over them.
  for (const bool visible : {false, true}) {
    for (const ViewLine& line : view.lines) {
      if (line.visible != visible) continue;
      const auto pieces =
          window ? clipped(line.points, *window) : std::vector<std::vector<Point2>>{line.points};
      for (const auto& piece : pieces) {
        ink.add(Stroke{scaled(piece, scale), false,
                       visible ? LineClass::visible : LineClass::hidden,
                       visible ? Layer::outline : Layer::hidden});
      }
    }
  }
  return ink;
}

Ink hatchingOf(const Projection& section, double scale, const std::optional<Box2>& window,
               double pitch) {
  Ink ink;
  const Box2 box = section.bounds();
  if (box.empty()) return ink;
  const Box2 shown = window.value_or(box);
  // Lines from upper left to lower right; the odd share keeps them off corners of whole mm.
  const double step = pitch * std::sqrt(2.0) / scale;
  for (double c = box.min.x + box.min.y + step * 0.4137; c < box.max.x + box.max.y; c += step) {
    const std::vector<double> xs = crossings(section, c);
    for (std::size_t i = 0; i + 1 < xs.size(); i += 2) {
      const std::vector<Point2> line{{xs[i], c - xs[i]}, {xs[i + 1], c - xs[i + 1]}};
      for (const auto& piece : clipped(line, shown)) {
        ink.add(Stroke{scaled(piece, scale), false, LineClass::dimension, Layer::hatching});
      }
    }
  }
  return ink;
}

}  // namespace dryfit::exporting

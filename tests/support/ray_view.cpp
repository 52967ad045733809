#include "tests/support/ray_view.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace dryfit::test {
namespace {

using kernel::Point2;
using kernel::Point3;
using kernel::Vec3;

double distanceTo(Point2 p, Point2 a, Point2 b) {
  const double dx = b.x - a.x;
  const double dy = b.y - a.y;
  const double length2 = dx * dx + dy * dy;
  const double t = length2 > 0 ? ((p.x - a.x) * dx + (p.y - a.y) * dy) / length2 : 0;
  const double c = std::clamp(t, 0.0, 1.0);
  return std::hypot(p.x - a.x - c * dx, p.y - a.y - c * dy);
}

}  // namespace

RayView::RayView(const kernel::Solid& solid, const kernel::Viewpoint& view)
    : mesh_(kernel::triangulate(solid).value()), view_(view), toEye_(view.right.cross(view.up)) {
  findEdges();
  for (std::size_t e = 0; e < edges_.size(); ++e) {
    const Vec3 run = edges_[e].b - edges_[e].a;
    const Vec3 step = run.unit() * 0.02;
    for (const double t : {0.07, 0.21, 0.38, 0.5, 0.63, 0.81, 0.94}) {
      const Point3 p = edges_[e].a + run * t;
      const bool visible = seen(p);
      // Close to a change of sight the outcome hangs on rounding.
      if (seen(p + step) != visible || seen(p - step) != visible) continue;
      samples_.push_back({flat(p), visible, static_cast<int>(e)});
    }
  }
}

/// The sides of triangles that only one triangle of their face has: the outlines of the faces.
void RayView::findEdges() {
  std::map<std::array<int, 2>, int> uses;  // mesh points are per face, so faces do not mix
  for (const auto& t : mesh_.triangles) {
    for (int i = 0; i < 3; ++i) {
      const int a = t[i];
      const int b = t[(i + 1) % 3];
      ++uses[{std::min(a, b), std::max(a, b)}];
    }
  }
  for (const auto& [ends, count] : uses) {
    const Edge edge{mesh_.points[ends[0]], mesh_.points[ends[1]]};
    if (count == 1 && (edge.b - edge.a).norm() > 0.5) edges_.push_back(edge);
  }
}

/// Whether the ray from `p` to the eye meets no triangle but those it starts on.
bool RayView::seen(Point3 p) const {
  for (const auto& t : mesh_.triangles) {
    const Point3 a = mesh_.points[t[0]];
    const Vec3 u = mesh_.points[t[1]] - a;
    const Vec3 v = mesh_.points[t[2]] - a;
    const Vec3 n = u.cross(v);
    const double facing = n.dot(toEye_);
    if (std::fabs(facing) < 1e-9 * n.norm()) continue;
    const double along = n.dot(a - p) / facing;
    if (along < 1e-6) continue;
    const Vec3 hit = p + toEye_ * along - a;
    const double uu = u.dot(u);
    const double uv = u.dot(v);
    const double vv = v.dot(v);
    const double hu = hit.dot(u);
    const double hv = hit.dot(v);
    const double det = uu * vv - uv * uv;
    const double s = (hu * vv - hv * uv) / det;
    const double r = (hv * uu - hu * uv) / det;
    if (s >= 0 && r >= 0 && s + r <= 1) return false;
  }
  return true;
}

Point2 RayView::flat(Point3 p) const {
  const Vec3 v = p - Point3{};
  return {v.dot(view_.right), v.dot(view_.up)};
}

bool RayView::crossesAnother(const RaySample& sample) const {
  const Edge& own = edges_[sample.edge];
  for (const Edge& edge : edges_) {
    // The same edge comes twice, once from each of its faces, maybe the other way round.
    const bool same = ((edge.a - own.a).norm() < 1e-6 && (edge.b - own.b).norm() < 1e-6) ||
                      ((edge.a - own.b).norm() < 1e-6 && (edge.b - own.a).norm() < 1e-6);
    if (!same && distanceTo(sample.place, flat(edge.a), flat(edge.b)) < 0.01) return true;
  }
  return false;
}

bool liesOn(const std::vector<kernel::ViewLine>& lines, Point2 p, bool visible, double reach) {
  return std::any_of(lines.begin(), lines.end(), [&](const kernel::ViewLine& line) {
    if (line.visible != visible) return false;
    for (std::size_t i = 1; i < line.points.size(); ++i) {
      if (distanceTo(p, line.points[i - 1], line.points[i]) <= reach) return true;
    }
    return false;
  });
}

}  // namespace dryfit::test

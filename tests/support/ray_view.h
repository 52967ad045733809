#pragma once

#include <vector>

#include "kernel/hidden_lines.h"
#include "kernel/mesh.h"

namespace dryfit::test {

/// A point on an edge of a part, on the drawing, and whether the eye sees it.
struct RaySample {
  kernel::Point2 place;
  bool visible = true;
  int edge = 0;
};

/// What an eye sees of a plane-faced part, found by rays from points on its edges through the
/// triangles of its mesh: slow, simple and without any of the library's line removal.
/// Points within 0.02 mm of where sight begins or ends are left out.
class RayView {
 public:
  RayView(const kernel::Solid& solid, const kernel::Viewpoint& view);

  [[nodiscard]] const std::vector<RaySample>& samples() const { return samples_; }
  /// Whether another edge passes within 0.01 mm of the sample on the drawing.
  [[nodiscard]] bool crossesAnother(const RaySample& sample) const;

 private:
  struct Edge {
    kernel::Point3 a, b;
  };
  void findEdges();
  [[nodiscard]] bool seen(kernel::Point3 p) const;
  [[nodiscard]] kernel::Point2 flat(kernel::Point3 p) const;

  kernel::Mesh mesh_;
  kernel::Viewpoint view_;
  kernel::Vec3 toEye_;
  std::vector<Edge> edges_;
  std::vector<RaySample> samples_;
};

/// Whether a point lies within `reach` mm of one of the lines that are visible, or that are hidden.
[[nodiscard]] bool liesOn(const std::vector<kernel::ViewLine>& lines, kernel::Point2 p,
                          bool visible, double reach);

}  // namespace dryfit::test

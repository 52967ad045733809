#include "tests/support/cgal_recipe.h"

#include <CGAL/Polygon_mesh_processing/corefinement.h>
#include <CGAL/Polygon_mesh_processing/measure.h>
#include <CGAL/Polygon_mesh_processing/triangulate_faces.h>

#include <algorithm>
#include <utility>
#include <vector>

#include "tests/support/cgal_nef.h"
#include "tests/support/cgal_types.h"

namespace dryfit::test {
namespace {

namespace pmp = CGAL::Polygon_mesh_processing;
using Mesh = ExactMesh;
using kernel::Point3;
using kernel::Step;

/// The mesh over a floor outline, anticlockwise seen from above, and the same outline lifted.
Mesh prismOver(const std::vector<Point3>& floor, const std::vector<Point3>& ceiling) {
  Mesh mesh;
  const auto add = [&](const Point3& p) { return mesh.add_vertex({p.x, p.y, p.z}); };
  std::vector<Mesh::Vertex_index> low;
  std::vector<Mesh::Vertex_index> high;
  for (const Point3& p : floor) low.push_back(add(p));
  for (const Point3& p : ceiling) high.push_back(add(p));
  const std::size_t n = low.size();
  for (std::size_t i = 0; i < n; ++i) {
    const std::size_t j = (i + 1) % n;
    mesh.add_face(low[i], low[j], high[j], high[i]);
  }
  mesh.add_face(high);
  std::reverse(low.begin(), low.end());
  mesh.add_face(low);
  pmp::triangulate_faces(mesh);
  return mesh;
}

Mesh meshOf(const kernel::Block& block) {
  const auto [a, b] = block.box;
  const auto level = [&](double z) {
    std::vector<Point3> corners{{a.x, a.y, z}, {b.x, a.y, z}, {b.x, b.y, z}, {a.x, b.y, z}};
    for (Point3& p : corners) p = block.frame.place(p);
    return corners;
  };
  return prismOver(level(a.z), level(b.z));
}

Mesh meshOf(const kernel::Prism& prism) {
  auto outline = prism.outline;
  double twice = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const auto p = outline[i];
    const auto q = outline[(i + 1) % outline.size()];
    twice += p.x * q.y - q.x * p.y;
  }
  if (twice < 0) std::reverse(outline.begin(), outline.end());
  const auto level = [&](double z) {
    std::vector<Point3> corners;
    for (const auto& p : outline) corners.push_back(prism.frame.place({p.x, p.y, z}));
    return corners;
  };
  return prismOver(level(0), level(prism.height));
}

bool isSound(const Mesh& mesh) {
  return CGAL::is_valid_polygon_mesh(mesh) && CGAL::is_triangle_mesh(mesh) && CGAL::is_closed(mesh);
}

/// A body that stays a triangle mesh as long as it can be one.
class Body {
 public:
  explicit Body(Mesh mesh) : mesh_(std::move(mesh)) {}

  void combine(const Mesh& tool, Step::Kind kind) {
    if (!nef_) {
      if (auto result = corefined(tool, kind)) {
        mesh_ = std::move(*result);
        return;
      }
      nef_.emplace(mesh_);
    }
    nef_->combine(tool, kind);
  }

  [[nodiscard]] double volume() const {
    return nef_ ? nef_->volume() : toDouble(pmp::volume(mesh_));
  }

 private:
  /// Nothing where the outcome cannot be a triangle mesh, or CGAL gives one that is not sound.
  [[nodiscard]] std::optional<Mesh> corefined(const Mesh& tool, Step::Kind kind) const {
    Mesh body = mesh_;  // corefinement changes both of its inputs
    Mesh other = tool;
    Mesh result;
    const bool held = kind == Step::Kind::add
                          ? pmp::corefine_and_compute_union(body, other, result)
                          : pmp::corefine_and_compute_difference(body, other, result);
    if (!held || !isSound(result)) return std::nullopt;
    return result;
  }

  Mesh mesh_;
  std::optional<NefBody> nef_;
};

std::optional<Mesh> meshOf(const kernel::Tool& tool) {
  if (const auto* block = std::get_if<kernel::Block>(&tool)) return meshOf(*block);
  if (const auto* prism = std::get_if<kernel::Prism>(&tool)) return meshOf(*prism);
  return std::nullopt;
}

}  // namespace

std::optional<double> cgalVolume(const kernel::Recipe& recipe) {
  const auto blank = meshOf(recipe.blank);
  if (!blank) return std::nullopt;
  Body body(*blank);
  for (const Step& step : recipe.steps) {
    for (const kernel::Tool& tool : step.tools) {
      const auto mesh = meshOf(tool);
      if (!mesh) return std::nullopt;
      body.combine(*mesh, step.kind);
    }
  }
  return body.volume();
}

}  // namespace dryfit::test

#include "tests/support/cgal_recipe.h"

#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Nef_polyhedron_3.h>
#include <CGAL/Polygon_mesh_processing/corefinement.h>
#include <CGAL/Polygon_mesh_processing/measure.h>
#include <CGAL/Polygon_mesh_processing/triangulate_faces.h>
#include <CGAL/Surface_mesh.h>
#include <CGAL/boost/graph/convert_nef_polyhedron_to_polygon_mesh.h>

#include <algorithm>
#include <vector>

namespace dryfit::test {
namespace {

namespace pmp = CGAL::Polygon_mesh_processing;
using Exact = CGAL::Exact_predicates_exact_constructions_kernel;
using Mesh = CGAL::Surface_mesh<Exact::Point_3>;
using Nef = CGAL::Nef_polyhedron_3<Exact>;
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

/// A body that stays a triangle mesh as long as it can be one.
class Body {
 public:
  explicit Body(Mesh mesh) : mesh_(std::move(mesh)) {}

  void combine(const Mesh& tool, Step::Kind kind) {
    if (!nef_) {
      Mesh body = mesh_;  // corefinement changes both of its inputs
      Mesh other = tool;
      Mesh result;
      const bool held = kind == Step::Kind::add
                            ? pmp::corefine_and_compute_union(body, other, result)
                            : pmp::corefine_and_compute_difference(body, other, result);
      if (held) {
        mesh_ = std::move(result);
        return;
      }
      nef_ = Nef(mesh_);
    }
    if (kind == Step::Kind::add) {
      *nef_ += Nef(tool);
    } else {
      *nef_ -= Nef(tool);
    }
    *nef_ = nef_->regularization();
  }

  [[nodiscard]] double volume() const {
    if (!nef_) return CGAL::to_double(pmp::volume(mesh_));
    return nefVolume();
  }

 private:
  /// By the divergence theorem, over the outward triangles of the boundary: which may meet in
  /// edges and corners as they like.
  [[nodiscard]] double nefVolume() const {
    std::vector<Exact::Point_3> points;
    std::vector<std::vector<std::size_t>> triangles;
    CGAL::convert_nef_polyhedron_to_polygon_soup(*nef_, points, triangles, true);
    Exact::FT six = 0;
    for (const auto& t : triangles) {
      six += CGAL::determinant(points[t[0]] - CGAL::ORIGIN, points[t[1]] - CGAL::ORIGIN,
                               points[t[2]] - CGAL::ORIGIN);
    }
    return CGAL::to_double(six) / 6;
  }

  Mesh mesh_;
  std::optional<Nef> nef_;
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

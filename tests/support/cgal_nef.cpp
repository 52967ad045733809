#include "tests/support/cgal_nef.h"

#include <CGAL/Nef_polyhedron_3.h>
#include <CGAL/boost/graph/convert_nef_polyhedron_to_polygon_mesh.h>

#include <vector>

namespace dryfit::test {

using Nef = CGAL::Nef_polyhedron_3<Exact>;

struct NefBody::Impl {
  Nef nef;
};

NefBody::NefBody(const ExactMesh& mesh) : impl_(std::make_unique<Impl>(Impl{Nef(mesh)})) {}
NefBody::~NefBody() = default;
NefBody::NefBody(NefBody&&) noexcept = default;
NefBody& NefBody::operator=(NefBody&&) noexcept = default;

void NefBody::combine(const ExactMesh& tool, kernel::Step::Kind kind) {
  Nef& body = impl_->nef;
  body = kind == kernel::Step::Kind::add ? body + Nef(tool) : body - Nef(tool);
  body = body.regularization();
}

/// By the divergence theorem, over the outward triangles of the boundary, which may meet in edges
/// and corners as they like.
double NefBody::volume() const {
  std::vector<Exact::Point_3> points;
  std::vector<std::vector<std::size_t>> triangles;
  CGAL::convert_nef_polyhedron_to_polygon_soup(impl_->nef, points, triangles, true);
  Exact::FT six = 0;
  for (const auto& t : triangles) {
    six += CGAL::determinant(points[t[0]] - CGAL::ORIGIN, points[t[1]] - CGAL::ORIGIN,
                             points[t[2]] - CGAL::ORIGIN);
  }
  return toDouble(six) / 6;
}

}  // namespace dryfit::test

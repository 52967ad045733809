#pragma once

#include <memory>

#include "kernel/recipe.h"
#include "tests/support/cgal_types.h"

namespace dryfit::test {

/// A body as a Nef polyhedron: slow, but it can hold lumps that meet in an edge or a corner.
class NefBody {
 public:
  explicit NefBody(const ExactMesh& mesh);
  ~NefBody();
  NefBody(NefBody&&) noexcept;
  NefBody& operator=(NefBody&&) noexcept;

  void combine(const ExactMesh& tool, kernel::Step::Kind kind);
  [[nodiscard]] double volume() const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace dryfit::test

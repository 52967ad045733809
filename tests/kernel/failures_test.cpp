// What the geometry library throws stops inside the kernel. A solid without a shape, which no
// public function makes, is what the library throws at surely.

#include <gtest/gtest.h>

#include <limits>

#include "kernel/hidden_lines.h"
#include "kernel/mesh.h"
#include "kernel/occt_bridge.h"
#include "kernel/recipe.h"
#include "kernel/solid.h"
#include "kernel/src/solid_impl.h"

namespace dryfit::kernel {
namespace {

Solid hollow() {
  return Solid(std::make_shared<const Solid::Impl>(TopoDS_Shape(), Mass{}));
}
Solid box() {
  return *makeBox({{0, 0, 0}, {100, 50, 20}});
}
/// Not square work, so that the general way has it.
Solid bar() {
  return *makeCylinder({10, 10, -5}, {0, 0, 1}, Length::mm(4), Length::mm(30));
}

template <class T>
void expectStopped(const Result<T>& result) {
  ASSERT_FALSE(result);
  EXPECT_FALSE(result.error().what.empty());
}

TEST(LibraryFailure, StopsInEveryFunctionOfSolids) {
  const Solid none = hollow();
  for (const Solid& other : {box(), bar()}) {
    EXPECT_NO_THROW({
      for (const auto& [a, b] : {std::pair(none, other), std::pair(other, none)}) {
        // A solid without a shape has an empty box, so a cut or a common may hold it for a miss.
        static_cast<void>(overlap(a, b));
        static_cast<void>(cut(a, {&b, 1}));
        static_cast<void>(common(a, {&b, 1}));
        expectStopped(fuse(a, {&b, 1}));
        expectStopped(distance(a, b));
      }
    });
  }
  EXPECT_NO_THROW(expectStopped(validate(none)));
  EXPECT_NO_THROW(static_cast<void>(triangulate(none)));
  EXPECT_NO_THROW(static_cast<void>(hiddenLines({&none, 1}, {})));
  EXPECT_NO_THROW(expectStopped(solidFrom(TopoDS_Shape())));
}

TEST(LibraryFailure, StopsWhereASolidIsAskedForItsSize) {
  const Solid none = hollow();
  EXPECT_NO_THROW(static_cast<void>(none.bounds()));
  EXPECT_NO_THROW(static_cast<void>(none.topology()));
  EXPECT_NO_THROW(static_cast<void>(none.placed(Frame{{1, 2, 3}}).bounds()));
}

TEST(LibraryFailure, StopsWhereARecipeCannotBe) {
  const Frame flat{{}, {1, 0, 0}, {1, 0, 0}, {0, 0, 0}};
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const Block plain{{{0, 0, 0}, {10, 10, 10}}, {}};
  const std::vector<Tool> unsound{
      Block{plain.box, flat},
      Block{plain.box, Frame{{nan, 0, 0}}},
      Block{plain.box, Frame{{}, {nan, 0, 0}, {0, 1, 0}, {0, 0, 1}}},
      Prism{flat, {{0, 0}, {10, 0}, {0, 10}}, 10},
      Prism{{}, {{0, 0}, {nan, 0}, {0, 10}}, 10},
      Cylinder{{0, 0, 0}, {0, 0, 0}, 4, 10},
      Cylinder{{nan, 0, 0}, {0, 0, 1}, 4, 10},
      Cylinder{{0, 0, 0}, {0, 0, 1}, nan, 10},
      Cylinder{{0, 0, 0}, {0, 0, 1}, 4, nan},
  };
  for (std::size_t i = 0; i < unsound.size(); ++i) {
    SCOPED_TRACE(i);
    EXPECT_NO_THROW(EXPECT_FALSE(makeTool(unsound[i])));
    EXPECT_NO_THROW(EXPECT_FALSE(build({unsound[i], {}})));
    EXPECT_NO_THROW(EXPECT_FALSE(build({plain, {{Step::Kind::remove, {unsound[i]}}}})));
    EXPECT_NO_THROW(EXPECT_FALSE(build({plain, {{Step::Kind::add, {unsound[i]}}}})));
  }
}

}  // namespace
}  // namespace dryfit::kernel

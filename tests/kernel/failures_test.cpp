// What the geometry library throws stops inside the kernel. Solids without a shape or a place, that
// no public function makes, are what it throws at surely.

#include <gtest/gtest.h>

#include <BRep_Builder.hxx>
#include <Standard_OutOfRange.hxx>
#include <TopoDS_Face.hxx>
#include <limits>
#include <memory>
#include <new>
#include <stdexcept>
#include <string>
#include <utility>

#include "kernel/caught.h"
#include "kernel/occt_bridge.h"
#include "kernel/recipe.h"
#include "kernel/solid.h"
#include "kernel/src/guarded.h"
#include "kernel/src/solid_impl.h"

namespace dryfit::kernel {
namespace {

Solid hollow() {
  return Solid(std::make_shared<const Solid::Impl>(TopoDS_Shape(), Mass{}));
}
/// A face of which nobody said where it is: the library throws when asked for its box.
Solid unplaced() {
  TopoDS_Face face;
  const BRep_Builder builder;
  builder.MakeFace(face);
  return Solid(std::make_shared<const Solid::Impl>(face, Mass{}));
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
    for (const auto& [a, b] : {std::pair(none, other), std::pair(other, none)}) {
      EXPECT_NO_THROW(expectStopped(fuse(a, {&b, 1})));
      EXPECT_NO_THROW(expectStopped(distance(a, b)));
    }
  }
  EXPECT_NO_THROW(expectStopped(validate(none)));
  EXPECT_NO_THROW(expectStopped(solidFrom(TopoDS_Shape())));
}

TEST(LibraryFailure, StopsWhereASolidsBoxIsAskedFor) {
  const Solid none = unplaced();
  EXPECT_NO_THROW(static_cast<void>(none.bounds()));
  EXPECT_NO_THROW(static_cast<void>(none.placed(Frame{{1, 2, 3}}).bounds()));
  for (const Solid& other : {box(), bar()}) {
    for (const auto& [a, b] : {std::pair(none, other), std::pair(other, none)}) {
      // What has no box is out of everything's way.
      EXPECT_NO_THROW(EXPECT_EQ(overlap(a, b).value().volume, 0));
      EXPECT_NO_THROW(EXPECT_TRUE(cut(a, {&b, 1})->isSameAs(a)));
      EXPECT_NO_THROW(EXPECT_EQ(common(a, {&b, 1}).error().code, ErrorCode::emptyResult));
    }
  }
}

TEST(LibraryFailure, IsToldInItsOwnWordsOrByItsClass) {
  const auto textOf = [](const auto& thrown) {
    try {
      throw thrown;
    } catch (...) {
      return caughtText();
    }
  };
  EXPECT_EQ(textOf(Standard_OutOfRange("beyond the last edge")), "beyond the last edge");
  EXPECT_EQ(textOf(Standard_OutOfRange()), "Standard_OutOfRange");
  EXPECT_EQ(textOf(std::runtime_error("out of wood")), "out of wood");
  EXPECT_EQ(textOf(7), "a failure of an unknown kind");
}

TEST(LibraryFailure, OfAnyKindBecomesAnError) {
  const auto throwing = [](const auto& thrown) {
    return guarded("testing", [&]() -> Result<int> { throw thrown; });
  };
  for (const auto& result : {throwing(Standard_OutOfRange()), throwing(std::bad_alloc()),
                             throwing(std::string("no exception at all"))}) {
    ASSERT_FALSE(result);
    EXPECT_EQ(result.error().code, ErrorCode::libraryFailure);
    EXPECT_EQ(result.error().what.find("the geometry library failed while testing ("), 0U);
  }
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

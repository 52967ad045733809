#include "tests/support/square_agree.h"

#include <gtest/gtest.h>

#include "kernel/occt_bridge.h"

namespace dryfit::test {

using namespace kernel;

namespace {

std::string shown(const Topology& t) {
  return "solids " + std::to_string(t.solids) + ", shells " + std::to_string(t.shells) +
         ", faces " + std::to_string(t.faces) + ", edges " + std::to_string(t.edges) +
         ", vertices " + std::to_string(t.vertices);
}

void expectSameBox(const Box3& a, const Box3& b, double within) {
  EXPECT_LE((a.min - b.min).norm(), within);
  EXPECT_LE((a.max - b.max).norm(), within);
}

}  // namespace

std::string shown(const Recipe& recipe) {
  const auto box = [](const Tool& tool) {
    const Box3 b = boundsOf(tool);
    std::string text;
    for (const Point3 p : {b.min, b.max}) {
      for (int axis = 0; axis < 3; ++axis) text += std::to_string(p[axis]) + " ";
    }
    return text + "\n";
  };
  std::string text = "blank " + box(recipe.blank);
  for (const Step& step : recipe.steps) {
    for (const Tool& tool : step.tools)
      text += (step.kind == Step::Kind::add ? "+ " : "- ") + box(tool);
  }
  return text;
}

void expectSame(const Solid& a, const Solid& b) {
  EXPECT_NEAR(a.volume(), b.volume(), 1e-9 * b.volume());
  EXPECT_NEAR(a.area(), b.area(), 1e-9 * b.area());
  EXPECT_LE((a.centroid() - b.centroid()).norm(), 1e-7);
  expectSameBox(a.bounds(), b.bounds(), 1e-6);
  EXPECT_EQ(a.topology(), b.topology()) << shown(a.topology()) << "\n" << shown(b.topology());
}

/// Square work against its own shape as the geometry library sees it, its validity included, and
/// against the general way.
void expectBothWaysAgree(const Recipe& recipe) {
  const auto square = build(recipe);
  ASSERT_TRUE(square) << square.error().line();
  const auto seen = solidFrom(shapeOf(*square));
  ASSERT_TRUE(seen) << seen.error().line();
  expectSame(*square, *seen);
  const auto general = buildGeneral(recipe);
  ASSERT_TRUE(general) << general.error().line();
  expectSame(*square, *general);
}

}  // namespace dryfit::test

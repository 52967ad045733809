// A part that is only thought of stands where it will stand once it is made.

#include "joinery/building/new_part_box.h"

#include <gtest/gtest.h>

#include <array>
#include <random>

#include "joinery/joints/evaluate.h"
#include "tests/support/joint_bench.h"
#include "tests/support/repetitions.h"

namespace dryfit::test {
namespace {

using joinery::ModelFile;
using joinery::NewPart;
using joinery::NewSpan;
using joinery::Piece;

/// Two ends 20 thick and 800 high, a floor and a top board between them.
class PartThoughtOf : public testing::Test {
 protected:
  ModelFile file = [] {
    ModelText text;
    text.part("left_end", {"z", 0, 800}, {"y", 0, 300}, {"x", 0, 20})
        .part("right_end", {"z", 0, 800}, {"y", 0, 300}, {"x", 620, 20})
        .part("floor", {"x", 20, 600}, {"y", 0, 300}, {"z", 60, 20})
        .part("top", {"x", 20, 600}, {"y", 0, 300}, {"z", 780, 20});
    return std::move(*ModelFile::parse(text.json().dump(), "carcass"));
  }();
  Piece piece = *joinery::evaluate(file.model(), joinery::Basis::drawn);
  NewPart door{.name = "door",
               .material = file.model().materials.front().name,
               .length = {"z", "floor.top", "top.bottom", {}, {}},
               .width = {"x", "left_end.right", "right_end.left", {}, {}},
               .thickness = {"y", "left_end.front", {}, {}, {}}};
};

TEST_F(PartThoughtOf, FillsTheOpeningThatItsFacesName) {
  const auto box = boxOf(piece, door);
  ASSERT_TRUE(box) << box.error().line();
  EXPECT_EQ(box->min, (kernel::Point3{20, 0, 80}));
  const double thickness = piece.values.at(door.material + ".thickness");
  EXPECT_EQ(box->max, (kernel::Point3{620, thickness, 780}));
}

TEST_F(PartThoughtOf, ReachesAsFarAsThePieceWhereAnEndIsNotWritten) {
  door.width.to.clear();
  door.length.from.clear();
  const auto box = boxOf(piece, door);
  ASSERT_TRUE(box) << box.error().line();
  EXPECT_EQ(box->max.x, 640);
  EXPECT_EQ(box->min.z, 0);
}

TEST_F(PartThoughtOf, StandsNowhereWhereItEndsBeforeItBegins) {
  std::swap(door.width.from, door.width.to);
  EXPECT_FALSE(boxOf(piece, door));
}

TEST_F(PartThoughtOf, StandsNowhereWhereTwoSizesRunOneWay) {
  door.width.along = "z";
  EXPECT_FALSE(boxOf(piece, door));
}

TEST_F(PartThoughtOf, StandsNowhereBesideWhatIsNotThere) {
  door.width.from = "middle.right";
  EXPECT_FALSE(boxOf(piece, door));
}

TEST_F(PartThoughtOf, StandsWhereItIsOnceMade) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE(testing::Message() << "seed " << seed);
  std::mt19937 random(seed);
  const auto upTo = [&](int most) { return std::uniform_int_distribution(0, most)(random); };
  constexpr std::array<std::array<const char*, 2>, 3> kEnds{
      {{"left", "right"}, {"front", "back"}, {"bottom", "top"}}};
  constexpr std::array kParts{"left_end", "right_end", "floor", "top"};
  constexpr std::array kAxes{"x", "y", "z"};
  const auto anEnd = [&](std::size_t axis) -> std::string {
    if (upTo(2) == 0) return std::to_string(upTo(300));
    const std::string face = std::string(kParts[static_cast<std::size_t>(upTo(3))]) + "." +
                             kEnds[axis][static_cast<std::size_t>(upTo(1))];
    return upTo(1) == 0 ? face : face + " + 5 mm";
  };
  int made = 0;
  for (int round = 0; round < repetitions(400); ++round) {
    const auto turn = static_cast<std::size_t>(upTo(2));
    const auto span = [&](std::size_t axis, bool thick) {
      NewSpan one{kAxes[axis], {}, {}, {}, {}};
      const int which = thick ? upTo(2) : upTo(3);
      if (which == 0) one.from = anEnd(axis);
      if (which == 1) one.to = anEnd(axis);
      if (which == 2) one.centre = anEnd(axis);
      if (which == 3) {
        one.from = anEnd(axis);
        one.to = anEnd(axis);
      } else if (!thick) {
        one.size = std::to_string(20 + upTo(400));
      }
      return one;
    };
    NewPart part = door;
    part.length = span(turn, false);
    part.width = span((turn + 1) % 3, false);
    part.thickness = span((turn + 2) % 3, true);
    ModelFile changed = file;
    if (!addPart(changed, part)) continue;
    const auto after = joinery::evaluate(changed.model(), joinery::Basis::drawn);
    if (!after) continue;  // it ends before it begins
    const auto box = boxOf(piece, part);
    ASSERT_TRUE(box) << box.error().line();
    for (int axis = 0; axis < 3; ++axis) {
      EXPECT_NEAR(box->min[axis], after->parts.back().span.min[axis], 1e-9);
      EXPECT_NEAR(box->max[axis], after->parts.back().span.max[axis], 1e-9);
    }
    ++made;
  }
  EXPECT_GT(made, repetitions(400) / 4);
}

}  // namespace
}  // namespace dryfit::test

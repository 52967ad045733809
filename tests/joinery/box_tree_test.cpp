#include "joinery/base/box_tree.h"

#include <gtest/gtest.h>

#include <random>

namespace dryfit::joinery {
namespace {

using kernel::Box3;

/// Boxes of every sort: boards, films without thickness, and boxes inside out.
std::vector<Box3> randomBoxes(std::mt19937& random, int count) {
  std::uniform_real_distribution<double> place(0, 1000);
  std::uniform_real_distribution<double> size(-5, 120);
  std::vector<Box3> boxes;
  for (int i = 0; i < count; ++i) {
    // Whole tens often make faces touch exactly.
    const auto tens = [&] { return std::round(place(random) / 10) * 10; };
    const auto edge = [&] { return std::round(size(random) / 10) * 10; };
    const kernel::Point3 corner{tens(), tens(), tens()};
    boxes.push_back({corner, corner + kernel::Vec3{edge(), edge(), edge()}});
  }
  return boxes;
}

TEST(BoxTree, FindsWhatAskingEveryPairFinds) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE(testing::Message() << "seed " << seed);
  std::mt19937 random(seed);
  for (const int count : {0, 1, 2, 7, 8, 9, 40, 300}) {
    const std::vector<Box3> boxes = randomBoxes(random, count);
    const BoxTree tree(boxes);
    for (const double margin : {0.0, 4.5, 30.0}) {
      std::vector<std::pair<std::size_t, std::size_t>> expected;
      for (std::size_t i = 0; i < boxes.size(); ++i) {
        for (std::size_t j = i + 1; j < boxes.size(); ++j) {
          if (!boxes[i].grown(margin).common(boxes[j]).empty() ||
              !boxes[j].grown(margin).common(boxes[i]).empty()) {
            expected.emplace_back(i, j);
          }
        }
      }
      EXPECT_EQ(tree.pairs(margin), expected);
    }
    for (const Box3& asked : randomBoxes(random, 20)) {
      std::vector<std::size_t> expected;
      for (std::size_t i = 0; i < boxes.size(); ++i) {
        if (!boxes[i].common(asked).empty()) expected.push_back(i);
      }
      EXPECT_EQ(tree.sharing(asked), expected);
    }
  }
}

TEST(BoxTree, DoesNotPairBoardsThatOnlyTouch) {
  const BoxTree tree({{{0, 0, 0}, {10, 10, 10}}, {{10, 0, 0}, {20, 10, 10}}});
  EXPECT_TRUE(tree.pairs().empty());
  EXPECT_EQ(tree.pairs(0.1).size(), 1u);
}

TEST(BoxTree, TakesBoardsThatAllLieInOnePlace) {
  const BoxTree tree(std::vector<Box3>(100, {{0, 0, 0}, {10, 10, 10}}));
  EXPECT_EQ(tree.pairs().size(), 100u * 99 / 2);
}

}  // namespace
}  // namespace dryfit::joinery

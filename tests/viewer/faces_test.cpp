// Faces, edges and corners are pointed at in the view and taken, by mouse and by keys.

#include <gmock/gmock.h>

#include <set>

#include "joinery/file/part_edits.h"
#include "tests/viewer/faces_fixture.h"

namespace dryfit::viewer {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

TEST_F(Faces, ThePointerNamesTheFaceThatItIsOn) {
  press(Qt::Key_6, Qt::ControlModifier);
  for (const char* name : {"left_end.front", "back.front", "shelf_1.front", "top.front"}) {
    EXPECT_TRUE(find(name)) << name;
    EXPECT_THAT(message(), HasSubstr(name));
  }
  const auto seen = inSight();
  EXPECT_THAT(seen, Contains("right_end.front"));
  EXPECT_THAT(seen, Not(Contains("back.back"))) << "that is behind";
  EXPECT_THAT(seen, Not(Contains("left_end.right"))) << "that is seen edge on";
  pointerTo(view(), {1, 1});
  EXPECT_EQ(pointed(), "");
}

TEST_F(Faces, AClickTakesAFaceAndCtrlAnother) {
  press(Qt::Key_6, Qt::ControlModifier);
  click("left_end.front");
  EXPECT_THAT(taken(), ElementsAre("left_end.front"));
  click("shelf_2.front", Qt::ControlModifier);
  EXPECT_THAT(taken(), ElementsAre("left_end.front", "shelf_2.front"));
  EXPECT_EQ(message(), "Taken: left_end.front, shelf_2.front");
  click("left_end.front", Qt::ControlModifier);
  EXPECT_THAT(taken(), ElementsAre("shelf_2.front"));
  EXPECT_THAT(view().chosen(), IsEmpty()) << "parts are not chosen by it";
  press(Qt::Key_Escape);
  EXPECT_THAT(taken(), IsEmpty());
}

TEST_F(Faces, EdgesAndCornersArePointedAtLikewise) {
  press(Qt::Key_7, Qt::ControlModifier);
  EXPECT_TRUE(find("left_end.left + left_end.front"));
  press(Qt::Key_8, Qt::ControlModifier);
  EXPECT_TRUE(find("left_end.left + left_end.front + left_end.top"));
}

TEST_F(Faces, PartsAreChosenAsEverAfterwards) {
  press(Qt::Key_6, Qt::ControlModifier);
  const auto at = find("left_end.front");
  ASSERT_TRUE(at);
  press(Qt::Key_5, Qt::ControlModifier);
  EXPECT_EQ(pointed(), "");
  QTest::mouseClick(&view(), Qt::LeftButton, {}, *at);
  EXPECT_THAT(view().chosen(), ElementsAre(joinery::PartId(0)));
}

TEST_F(Faces, KeysReachEveryFaceOfEveryPart) {
  std::set<std::string> seen;
  press(Qt::Key_F7);
  for (std::size_t part = 0; part < document().model().parts.size(); ++part) {
    for (int face = 0; face < 6; ++face) {
      seen.insert(pointed());
      press(Qt::Key_F7);
    }
    press(Qt::Key_F8, Qt::ShiftModifier);
  }
  EXPECT_EQ(seen.size(), 6 * document().model().parts.size());
  EXPECT_EQ(view().pointing(), Pointing::faces);
}

TEST_F(Faces, KeysGoAcrossToWhatAFaceTouchesAndBack) {
  walkTo("left_end.right");
  std::vector<std::string> met;
  for (int i = 0; i < 6; ++i) {
    press(Qt::Key_F8);
    met.push_back(pointed());
  }
  EXPECT_THAT(met, ElementsAre("top.left", "bottom.left", "shelf_1.left", "shelf_2.left",
                               "back.left", "left_end.right"));
  press(Qt::Key_F9);
  press(Qt::Key_F7);
  press(Qt::Key_F9, Qt::ControlModifier);
  EXPECT_THAT(taken(), ElementsAre("left_end.right", "left_end.front"));
}

TEST_F(Faces, WhatIsTakenStaysWhereNumbersChangeAndGoesWithItsPart) {
  walkTo("shelf_2.front");
  press(Qt::Key_F9);
  ASSERT_TRUE(document().apply("", [](joinery::ModelFile& file) {
    return joinery::setPartSpan(file, "shelf_1", "width", "from", "30");
  }));
  settle();
  EXPECT_THAT(taken(), ElementsAre("shelf_2.front"));
  ASSERT_TRUE(document().apply(
      "", [](joinery::ModelFile& file) { return joinery::erasePart(file, "shelf", {}); }));
  settle();
  EXPECT_THAT(taken(), IsEmpty());
  EXPECT_EQ(pointed(), "");
}

}  // namespace
}  // namespace dryfit::viewer

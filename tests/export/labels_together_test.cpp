// How many parts of one kind are named on one line of a list or in one title.

#include <gtest/gtest.h>

#include "export/words/labels_together.h"

namespace dryfit::exporting {
namespace {

TEST(Labels, ThatDifferInANumberAreToldTogether) {
  EXPECT_EQ(labelsTogether({"drawer 1 front", "drawer 2 front", "drawer 3 front", "top"}),
            "drawer 1–3 front, top");
  EXPECT_EQ(labelsTogether({"slat 1", "slat 2", "slat 4"}), "slat 1–2+4");
  EXPECT_EQ(labelsTogether({"slat 7"}), "slat 7");
  EXPECT_EQ(labelsTogether({"left stile", "right stile", "left stile"}), "left stile, right stile");
}

TEST(Labels, TellEveryNumberOfANestedCopyAndNoOther) {
  EXPECT_EQ(
      labelsTogether({"drawer 1 side 1", "drawer 1 side 2", "drawer 2 side 1", "drawer 2 side 2"}),
      "drawer 1–2 side 1–2");
  EXPECT_EQ(labelsTogether({"drawer 1 side 1", "drawer 1 side 2", "drawer 2 side 1"}),
            "drawer 1 side 1–2, drawer 2 side 1")
      << "there is no drawer 2 side 2 among them";
}

TEST(Labels, KeepWhatOnlyLooksLikeANumber) {
  EXPECT_EQ(labelsTogether({"rail 007", "rail 8"}), "rail 007, rail 8");
  EXPECT_EQ(labelsTogether({"rail a1", "rail a2"}), "rail a1, rail a2");
}

}  // namespace
}  // namespace dryfit::exporting

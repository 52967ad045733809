#include <gtest/gtest.h>

#include <QTableView>
#include <QTest>

#include "tests/viewer/bench_fixture.h"
#include "viewer/tables/absorb_button.h"
#include "viewer/tables/measured_table.h"
#include "viewer/tables/part_tree.h"

namespace dryfit::viewer {
namespace {

using joinery::FindingKind;

TEST_F(Bench, MeasuredSizesTakeThePlaceOfDrawnOnes) {
  QTableView* view = table("measured");
  const int row = rowOf(view, "Left stile");
  typeInto(view, row, MeasuredTable::measured, "60.8");
  settle();
  EXPECT_EQ(shown(view, row, MeasuredTable::difference), QString::fromUtf8("−1.2"));
  EXPECT_NEAR(document().piece()->parts[0].size.y, 62, 1e-9);
  choose("Measured");
  settle();
  EXPECT_NEAR(document().assembled()->fit->piece.parts[0].size.y, 60.8, 1e-9);
  EXPECT_EQ(shown(view, row, MeasuredTable::drawn), "62");
  typeInto(view, row, MeasuredTable::measured, "");
  EXPECT_TRUE(document().model().measurements.empty());
}

TEST_F(Bench, HoldsTheDesignToAStileThatIsCutAndOffersWhatCouldAbsorbTheChange) {
  parts()->topLevelItem(0)->setSelected(true);
  parts()->topLevelItem(1)->setSelected(true);
  parts()->topLevelItem(2)->setSelected(true);
  parts()->markChosen(joinery::MarkState::cut);
  EXPECT_EQ(document().model().marks.size(), 3U);
  EXPECT_EQ(parts()->topLevelItem(0)->text(PartTree::made), "cut");
  choose("Measured");
  settle();
  auto* button = window_.findChild<AbsorbButton*>("absorb");
  EXPECT_FALSE(button->isVisibleTo(button->parentWidget()));
  setDimension("door_width", "410");
  settle();
  EXPECT_GT(findingsOfKind(FindingKind::locked), 0);
  EXPECT_TRUE(button->isVisibleTo(button->parentWidget()));
  const auto offers = button->offers();
  ASSERT_TRUE(offers) << offers.error().line();
  ASSERT_FALSE(offers->empty());
  ASSERT_TRUE(document().apply("absorb", offers->front().edit));
  settle();
  EXPECT_EQ(findingsOfKind(FindingKind::locked), 0);
  parts()->markChosen(std::nullopt);
  EXPECT_TRUE(document().model().marks.empty());
}

TEST_F(Bench, MarksPartsAtTheirMeasuredSizesThoughDrawnOnesAreShown) {
  ASSERT_TRUE(document().apply("measured", measurementEdit({joinery::Measurement::Scope::part,
                                                            "left_stile",
                                                            joinery::SizeName::width,
                                                            {"60.8", true}})));
  ASSERT_EQ(document().basis(), joinery::Basis::drawn);
  parts()->topLevelItem(0)->setSelected(true);
  choose("Machined");
  ASSERT_EQ(document().model().marks.size(), 1U);
  EXPECT_NEAR(document().model().marks[0].overall.y, 60.8, 1e-9);
  EXPECT_TRUE(message().contains("60.8")) << message().toStdString();
  parts()->clearSelection();
  choose("Machined");
  EXPECT_EQ(document().model().marks.size(), 1U);
  EXPECT_FALSE(message().isEmpty()) << "it says that no part is chosen";
}

TEST_F(Bench, GivesPartNamesAndMarksTheRoomTheyNeed) {
  window_.resize(1280, 900);
  for (int i = 0; i < 5; ++i) parts()->topLevelItem(i)->setSelected(true);
  parts()->markChosen(joinery::MarkState::machined);
  QTest::qWait(300);  // columns are fitted when the numbers have come to rest
  for (int i = 0; i < 5; ++i) {
    const QTreeWidgetItem* item = parts()->topLevelItem(i);
    for (const int column : {PartTree::part, PartTree::shoulder, PartTree::made}) {
      const int needed = parts()->fontMetrics().horizontalAdvance(item->text(column));
      EXPECT_GT(parts()->visualItemRect(item).height(), 0);
      EXPECT_GE(parts()->columnWidth(column), needed) << item->text(column).toStdString();
    }
  }
  int all = 0;
  for (int column = 0; column < PartTree::columns; ++column) all += parts()->columnWidth(column);
  EXPECT_LE(all, parts()->viewport()->width());
  EXPECT_GE(parts()->columnWidth(PartTree::material),
            parts()->fontMetrics().horizontalAdvance("ply6"));
}

}  // namespace
}  // namespace dryfit::viewer

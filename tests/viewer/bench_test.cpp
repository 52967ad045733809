#include <gtest/gtest.h>

#include <BRepBndLib.hxx>
#include <BRepGProp.hxx>
#include <BRep_Tool.hxx>
#include <Bnd_Box.hxx>
#include <GProp_GProps.hxx>
#include <QApplication>
#include <QLineEdit>
#include <QSignalSpy>
#include <QSlider>
#include <QTableView>
#include <QTest>
#include <QThread>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>

#include "kernel/occt_bridge.h"
#include "tests/viewer/bench_fixture.h"
#include "viewer/tables/dimension_table.h"
#include "viewer/tables/finding_table.h"
#include "viewer/tables/part_tree.h"
#include "viewer/view/view3d.h"

namespace dryfit::viewer {
namespace {

using joinery::FindingKind;
using joinery::PartId;

TEST_F(Bench, DrawsEveryPartWithTheVolumeAndPlaceItHasInThePiece) {
  const joinery::DryFit& fit = *document().assembled()->fit;
  ASSERT_EQ(fit.solids.size(), 5U);
  for (std::size_t i = 0; i < fit.solids.size(); ++i) {
    const TopoDS_Shape shape = window_.view().shapeOf(PartId(i));
    ASSERT_FALSE(shape.IsNull());
    GProp_GProps mass;
    BRepGProp::VolumeProperties(shape, mass);
    EXPECT_NEAR(mass.Mass(), fit.solids[i].volume(), 1e-6 * fit.solids[i].volume());
    Bnd_Box box;
    BRepBndLib::AddOptimal(shape, box, Standard_False, Standard_False);
    const kernel::Box3 expected = fit.placed(PartId(i)).bounds();
    const gp_Pnt low = box.CornerMin();
    const gp_Pnt high = box.CornerMax();
    for (int axis = 0; axis < 3; ++axis) {
      EXPECT_NEAR(low.Coord(axis + 1), expected.min[axis], 1e-3);
      EXPECT_NEAR(high.Coord(axis + 1), expected.max[axis], 1e-3);
    }
  }
}

TEST_F(Bench, MeshesCopiesAndLeavesTheSolidsBare) {
  const joinery::DryFit& fit = *document().assembled()->fit;
  for (std::size_t i = 0; i < fit.solids.size(); ++i) {
    EXPECT_FALSE(window_.view().shapeOf(PartId(i)).IsPartner(kernel::shapeOf(fit.solids[i])));
    for (TopExp_Explorer e(kernel::shapeOf(fit.solids[i]), TopAbs_FACE); e.More(); e.Next()) {
      TopLoc_Location place;
      EXPECT_TRUE(BRep_Tool::Triangulation(TopoDS::Face(e.Current()), place).IsNull());
    }
  }
}

TEST_F(Bench, FindsAWidthOutsideTheBriefAndForgetsItWhenPutRight) {
  ASSERT_EQ(findingsOfKind(FindingKind::envelope), 0);
  setDimension("door_width", "430");
  settle();
  EXPECT_EQ(findingsOfKind(FindingKind::envelope), 1);
  EXPECT_GE(table("findings")->model()->rowCount(), 1);
  setDimension("door_width", "400");
  settle();
  EXPECT_EQ(findingsOfKind(FindingKind::envelope), 0);
}

TEST_F(Bench, LengthensTheRailsInTheViewWhenTheStilesGetNarrower) {
  setDimension("stile_width", "62 - 12");
  settle();
  Bnd_Box panel;
  BRepBndLib::AddOptimal(window_.view().shapeOf(PartId(0)), panel, Standard_False, Standard_False);
  EXPECT_NEAR(panel.CornerMax().X() - panel.CornerMin().X(), 50, 1e-3);
  const joinery::PlacedPart& rail = document().piece()->parts[2];
  EXPECT_NEAR(rail.size.x, 400 - 2 * 50, 1e-9);
  EXPECT_EQ(parts()->topLevelItem(2)->text(PartTree::shoulder), "300");
}

TEST_F(Bench, RefusesANameNobodyKnowsInOneLineAndChangesNothing) {
  const std::string before = document().file().text();
  setDimension("door_width", "2 * stile_widht");
  EXPECT_EQ(document().file().text(), before);
  EXPECT_FALSE(document().isChanged());
  EXPECT_FALSE(message().isEmpty());
  EXPECT_FALSE(message().contains('\n'));
  EXPECT_NE(table("dimensions")->findChild<QLineEdit*>(), nullptr) << "the entry stays open";
  QTest::keyClick(table("dimensions")->findChild<QLineEdit*>(), Qt::Key_Escape);
  EXPECT_EQ(document().file().text(), before);
  EXPECT_TRUE(message().isEmpty());
}

TEST_F(Bench, RefusesAHalfTypedExpression) {
  EXPECT_FALSE(document().tryEdit(dimensionEdit("door_width", "400 +")));
  EXPECT_FALSE(document().tryEdit(dimensionEdit("door_width", "")));
  EXPECT_FALSE(document().tryEdit(dimensionEdit("door_width", "door_width + 1")));
  EXPECT_TRUE(document().tryEdit(dimensionEdit("door_width", "stile_width * 7")));
}

TEST_F(Bench, ShowsTheSameLengthsInTheChosenUnit) {
  QTableView* view = table("dimensions");
  EXPECT_EQ(shown(view, 0, DimensionTable::value), "400");
  choose("cm");
  EXPECT_EQ(shown(view, 0, DimensionTable::value), "40");
  choose("inch");
  // 400 mm is 15.748 in; the nearest 64th is 15 48/64.
  EXPECT_EQ(shown(view, 0, DimensionTable::value), "15 3/4");
  EXPECT_EQ(shown(view, 0, DimensionTable::written), "400") << "the file keeps its own unit";
  EXPECT_TRUE(
      view->model()->headerData(DimensionTable::value, Qt::Horizontal).toString().contains("in"));
}

TEST_F(Bench, ChoosingAFindingChoosesItsParts) {
  setDimension("door_width", "430");
  settle();
  QTableView* view = table("findings");
  const int row = rowOf(view, "envelope", FindingTable::kind);
  view->setCurrentIndex(view->model()->index(row, 0));
  const auto& findings = document().assembled()->fit->findings;
  EXPECT_EQ(parts()->chosen(), findings[static_cast<std::size_t>(row)].parts);
  EXPECT_FALSE(parts()->chosen().empty());
}

TEST_F(Bench, ChoosingAPartInTheListChoosesItInTheView) {
  parts()->topLevelItem(2)->setSelected(true);
  EXPECT_EQ(window_.view().chosen(), std::vector<PartId>{PartId(2)});
}

TEST_F(Bench, ClickingThePanelInTheFrontViewChoosesItInTheList) {
  choose("Front");
  QCoreApplication::processEvents();
  QTest::mouseClick(&window_.view(), Qt::LeftButton, {}, window_.view().rect().center());
  EXPECT_EQ(parts()->chosen(), std::vector<PartId>{PartId(4)});
}

TEST_F(Bench, TheLatestOfManyQuickEditsIsTheOneShown) {
  QSignalSpy shownAgain(&document(), &BenchDocument::assembledChanged);
  bool onGuiThread = true;
  QObject::connect(&document(), &BenchDocument::assembledChanged, &window_, [&] {
    onGuiThread = onGuiThread && QThread::currentThread() == qApp->thread();
  });
  for (int width = 41; width <= 60; ++width) {
    ASSERT_TRUE(document().apply("quick", dimensionEdit("stile_width", std::to_string(width))));
  }
  EXPECT_NEAR(document().piece()->values.at("stile_width"), 60, 1e-9) << "numbers follow at once";
  settle();
  EXPECT_NEAR(document().assembled()->fit->piece.parts[0].size.y, 60, 1e-9);
  EXPECT_TRUE(onGuiThread);
  EXPECT_LT(shownAgain.count(), 20) << "most of what is overtaken is not shown";
}

TEST_F(Bench, SlidingANumberMovesThePieceAndIsTakenBackAsOne) {
  const std::string before = document().file().text();
  table("dimensions")->setCurrentIndex(table("dimensions")->model()->index(2, 0));
  auto* slide = window_.findChild<QSlider*>("dimensionSlide");
  ASSERT_TRUE(slide && slide->isEnabled());
  const int start = slide->value();
  slide->setSliderDown(true);
  for (int step = 1; step <= 6; ++step) {
    slide->setValue(start + step);
    QCoreApplication::processEvents();
  }
  slide->setSliderDown(false);
  settle();
  EXPECT_NEAR(document().piece()->values.at("stile_width"), start + 6, 1e-9);
  EXPECT_NEAR(document().assembled()->fit->piece.parts[0].size.y, start + 6, 1e-9);
  EXPECT_EQ(document().undoStack().count(), 1);
  document().undoStack().undo();
  EXPECT_EQ(document().file().text(), before);
}

TEST_F(Bench, LeavesTheSlideIdleForANumberThatIsWorkedOut) {
  setDimension("stile_width", "door_width / 8");
  table("dimensions")->setCurrentIndex(table("dimensions")->model()->index(2, 0));
  EXPECT_FALSE(window_.findChild<QSlider*>("dimensionSlide")->isEnabled());
}

TEST_F(Bench, LeavesPartsAloneThatDidNotChange) {
  const TopoDS_Shape panel = window_.view().shapeOf(PartId(4));
  const TopoDS_Shape stile = window_.view().shapeOf(PartId(0));
  setDimension("stile_width", "62 - 12");
  settle();
  EXPECT_FALSE(window_.view().shapeOf(PartId(0)).IsPartner(stile));
  setDimension("stile_width", "62");
  settle();
  const TopoDS_Shape again = window_.view().shapeOf(PartId(0));
  setDimension("door_width", "405");
  settle();
  EXPECT_TRUE(window_.view().shapeOf(PartId(0)).IsPartner(again)) << "a stile is as it was";
  EXPECT_FALSE(window_.view().shapeOf(PartId(4)).IsPartner(panel)) << "a panel is wider";
}

TEST_F(Bench, TypingIntoARowBeginsWhereverTheRowIsChosen) {
  QTableView* view = table("dimensions");
  view->setCurrentIndex(view->model()->index(2, DimensionTable::name));
  QTest::keyClick(view, Qt::Key_F2);
  auto* line = view->findChild<QLineEdit*>();
  ASSERT_NE(line, nullptr);
  EXPECT_EQ(line->text(), "62");
}

TEST_F(Bench, TurnsAndZoomsByTheKeyboard) {
  View3d& view = window_.view();
  EXPECT_TRUE(view.focusPolicy() & Qt::TabFocus);
  choose("Front");
  QCoreApplication::processEvents();
  QTest::mouseClick(&view, Qt::LeftButton, {}, view.rect().center());
  ASSERT_EQ(view.chosen(), std::vector<PartId>{PartId(4)}) << "the panel";
  for (int i = 0; i < 30; ++i) QTest::keyClick(&view, Qt::Key_Right, Qt::ShiftModifier);
  QTest::mouseClick(&view, Qt::LeftButton, {}, view.rect().center());
  EXPECT_NE(view.chosen(), std::vector<PartId>{PartId(4)}) << "shifted out of the middle";
}

}  // namespace
}  // namespace dryfit::viewer

#include <gtest/gtest.h>

#include <BRepBndLib.hxx>
#include <BRepGProp.hxx>
#include <BRep_Tool.hxx>
#include <Bnd_Box.hxx>
#include <GProp_GProps.hxx>
#include <QAction>
#include <QApplication>
#include <QImage>
#include <QLabel>
#include <QLineEdit>
#include <QSignalSpy>
#include <QSlider>
#include <QTableView>
#include <QTemporaryDir>
#include <QTest>
#include <QThread>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <algorithm>
#include <fstream>
#include <sstream>

#include "kernel/occt_bridge.h"
#include "tests/viewer/frame_model.h"
#include "viewer/absorb_button.h"
#include "viewer/dimension_table.h"
#include "viewer/finding_table.h"
#include "viewer/look.h"
#include "viewer/main_window.h"
#include "viewer/measured_table.h"
#include "viewer/part_tree.h"
#include "viewer/picture.h"
#include "viewer/view3d.h"

namespace dryfit::viewer {
namespace {

using joinery::FindingKind;
using joinery::PartId;

constexpr int kPatience = 20'000;  // ms; slow machines and sanitizers

class Bench : public testing::Test {
 protected:
  void SetUp() override {
    path_ = folder_.filePath("door.dryfit").toStdString();
    std::ofstream(path_) << test::kFrameModel;
    window_.show();
    ASSERT_TRUE(QTest::qWaitForWindowExposed(&window_));
    ASSERT_TRUE(window_.openFile(path_));
    settle();
    ASSERT_NE(document().assembled(), nullptr) << message().toStdString();
  }

  BenchDocument& document() { return window_.document(); }
  void settle() {
    ASSERT_TRUE(QTest::qWaitFor([this] { return !document().isBuilding(); }, kPatience));
    QCoreApplication::processEvents();
  }
  QString message() { return window_.findChild<QLabel*>("message")->text(); }
  QTableView* table(const char* name) { return window_.findChild<QTableView*>(name); }
  PartTree* parts() { return window_.findChild<PartTree*>("parts"); }

  /// Opens the cell with F2, types over what is there and presses Enter, as a person would.
  void typeInto(QTableView* view, int row, int column, const QString& text) {
    view->setCurrentIndex(view->model()->index(row, column));
    QTest::keyClick(view, Qt::Key_F2);
    auto* line = view->findChild<QLineEdit*>();
    ASSERT_NE(line, nullptr);
    line->selectAll();
    if (text.isEmpty()) QTest::keyClick(line, Qt::Key_Delete);
    QTest::keyClicks(line, text);
    QTest::keyClick(line, Qt::Key_Return);
    QCoreApplication::processEvents();
  }
  int rowOf(QTableView* view, const QString& words, int column = 0) {
    for (int row = 0; row < view->model()->rowCount(); ++row) {
      if (view->model()->index(row, column).data().toString() == words) return row;
    }
    ADD_FAILURE() << "no row for " << words.toStdString();
    return 0;
  }
  void setDimension(const QString& name, const QString& text) {
    QTableView* view = table("dimensions");
    typeInto(view, rowOf(view, name), DimensionTable::written, text);
  }
  long findingsOfKind(FindingKind kind) {
    const auto& found = document().assembled()->fit->findings;
    return std::count_if(found.begin(), found.end(),
                         [kind](const joinery::Finding& f) { return f.kind == kind; });
  }
  QString shown(QTableView* view, int row, int column) {
    return view->model()->index(row, column).data().toString();
  }
  void choose(const QString& words) {
    for (QAction* action : window_.findChildren<QAction*>()) {
      if (action->text() == words) return action->trigger();
    }
    FAIL() << "no action " << words.toStdString();
  }

  QTemporaryDir folder_;
  std::filesystem::path path_;
  MainWindow window_;
};

std::string textOf(const std::filesystem::path& path) {
  std::stringstream text;
  text << std::ifstream(path).rdbuf();
  return text.str();
}

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
  setDimension("stile_width", "58 - 8");
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

TEST_F(Bench, TakesBackAndDoesAgain) {
  const std::string before = document().file().text();
  setDimension("stile_width", "70");
  settle();
  const std::string after = document().file().text();
  ASSERT_NE(before, after);
  EXPECT_TRUE(window_.isWindowModified());
  document().undoStack().undo();
  settle();
  EXPECT_EQ(document().file().text(), before);
  EXPECT_FALSE(window_.isWindowModified());
  EXPECT_NEAR(document().assembled()->fit->piece.parts[0].size.y, 58, 1e-9);
  document().undoStack().redo();
  settle();
  EXPECT_EQ(document().file().text(), after);
  EXPECT_NEAR(document().assembled()->fit->piece.parts[0].size.y, 70, 1e-9);
}

TEST_F(Bench, SavesWhatItReadsBackTheSame) {
  setDimension("stile_width", "door_width / 8");
  ASSERT_TRUE(document().isChanged());
  choose("&Save");
  EXPECT_FALSE(document().isChanged());
  const std::string saved = document().file().text();
  EXPECT_EQ(textOf(path_), saved);
  MainWindow second;
  ASSERT_TRUE(second.openFile(path_));
  EXPECT_EQ(second.document().file().text(), saved);
  EXPECT_NEAR(second.document().piece()->values.at("stile_width"), 50, 1e-9);
}

TEST_F(Bench, SaysWhenAPieceCannotBeSavedAndKeepsTheMark) {
  setDimension("stile_width", "60");
  const auto done = document().saveAs(path_.parent_path() / "no such folder" / "door.dryfit");
  ASSERT_FALSE(done);
  EXPECT_EQ(done.error().code, ErrorCode::fileNotWritten);
  EXPECT_TRUE(document().isChanged());
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
  setDimension("stile_width", "58 - 8");
  settle();
  EXPECT_FALSE(window_.view().shapeOf(PartId(0)).IsPartner(stile));
  setDimension("stile_width", "58");
  settle();
  const TopoDS_Shape again = window_.view().shapeOf(PartId(0));
  setDimension("door_width", "405");
  settle();
  EXPECT_TRUE(window_.view().shapeOf(PartId(0)).IsPartner(again)) << "a stile is as it was";
  EXPECT_FALSE(window_.view().shapeOf(PartId(4)).IsPartner(panel)) << "a panel is wider";
}

TEST_F(Bench, MeasuredSizesTakeThePlaceOfDrawnOnes) {
  QTableView* view = table("measured");
  const int row = rowOf(view, "Left stile");
  typeInto(view, row, MeasuredTable::measured, "55.4");
  settle();
  EXPECT_EQ(shown(view, row, MeasuredTable::difference), QString::fromUtf8("−2.6"));
  EXPECT_NEAR(document().piece()->parts[0].size.y, 58, 1e-9);
  choose("Measured");
  settle();
  EXPECT_NEAR(document().assembled()->fit->piece.parts[0].size.y, 55.4, 1e-9);
  EXPECT_EQ(shown(view, row, MeasuredTable::drawn), "58");
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
                                                            {"55.4", true}})));
  ASSERT_EQ(document().basis(), joinery::Basis::drawn);
  parts()->topLevelItem(0)->setSelected(true);
  choose("Machined");
  ASSERT_EQ(document().model().marks.size(), 1U);
  EXPECT_NEAR(document().model().marks[0].overall.y, 55.4, 1e-9);
  EXPECT_TRUE(message().contains("55.4")) << message().toStdString();
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

TEST_F(Bench, TypingIntoARowBeginsWhereverTheRowIsChosen) {
  QTableView* view = table("dimensions");
  view->setCurrentIndex(view->model()->index(2, DimensionTable::name));
  QTest::keyClick(view, Qt::Key_F2);
  auto* line = view->findChild<QLineEdit*>();
  ASSERT_NE(line, nullptr);
  EXPECT_EQ(line->text(), "58");
}

TEST_F(Bench, IsUnchangedWheneverItIsAsSaved) {
  setDimension("stile_width", "60");
  choose("&Save");
  EXPECT_FALSE(document().isChanged());
  document().undoStack().undo();
  EXPECT_TRUE(document().isChanged());
  settle();
  setDimension("stile_width", "60");
  EXPECT_FALSE(document().isChanged()) << "typed again what is on the disk";
}

TEST_F(Bench, NoticesThatAnotherProgramHasChangedTheFile) {
  EXPECT_FALSE(document().isOvertaken());
  std::string text = textOf(path_);
  const auto at = text.find("\"value\": 58");
  ASSERT_NE(at, std::string::npos);
  std::ofstream(path_) << text.replace(at, 11, "\"value\": 64");
  EXPECT_TRUE(document().isOvertaken());
  QEvent activation(QEvent::ActivationChange);
  window_.activateWindow();
  ASSERT_TRUE(QTest::qWaitForWindowActive(&window_));
  QCoreApplication::sendEvent(&window_, &activation);
  settle();
  EXPECT_FALSE(document().isOvertaken()) << "nothing was unsaved, so it is read again";
  EXPECT_NEAR(document().piece()->values.at("stile_width"), 64, 1e-9);
  // With a change of one's own, nothing is thrown away.
  setDimension("stile_width", "70");
  std::ofstream(path_) << test::kFrameModel;
  QCoreApplication::sendEvent(&window_, &activation);
  EXPECT_NEAR(document().piece()->values.at("stile_width"), 70, 1e-9);
  EXPECT_TRUE(message().contains("F5")) << message().toStdString();
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

TEST_F(Bench, WritesAPictureWithWoodInTheMiddle) {
  const std::filesystem::path file = path_.parent_path() / "door.png";
  const auto done = writePicture(document().assembled(), file, 400, 300);
  ASSERT_TRUE(done) << done.error().line();
  const QImage image(QString::fromStdString(file.string()));
  ASSERT_EQ(image.size(), QSize(400, 300));
  const QColor middle = image.pixelColor(200, 150);
  EXPECT_GT(middle.red() - middle.blue(), 25) << "wood is warm, the background is not";
  const QColor corner = image.pixelColor(3, 3);
  EXPECT_LT(std::abs(corner.red() - corner.blue()), 25);
}

TEST(BenchFile, ShowsAnAngleInDegreesWhateverTheUnitOfTheFile) {
  auto file = joinery::ModelFile::parse(R"({
    "format": "dryfit-model", "version": 1, "name": "Ledge", "unit": "in",
    "dimensions": {"slope": {"value": 20, "quantity": "angle"}, "ledge": 12},
    "materials": {"oak": {"kind": "solid", "species": "white oak", "thickness": 0.75}},
    "parts": {"ledge_board": {"material": "oak",
      "length": {"along": "x", "from": 0, "size": "ledge"},
      "width": {"along": "y", "from": 0, "size": 4},
      "thickness": {"along": "z", "from": 0},
      "turn": {"about": "x", "at": [0, 0, 0], "angle": "slope"}}}
  })",
                                        "ledge");
  ASSERT_TRUE(file) << file.error().line();
  BenchDocument document;
  DimensionTable table(document);
  document.start(std::move(*file), {});
  const auto value = [&](int row) {
    return table.index(row, DimensionTable::value).data().toString();
  };
  for (const joinery::Unit unit : {joinery::Unit::inch, joinery::Unit::mm}) {
    document.setUnit(unit);
    EXPECT_EQ(value(0), QString::fromUtf8("20°"));
  }
  EXPECT_EQ(value(1), "304.8");
}

TEST(BenchFile, TellsInOneLineWhatIsWrongWithAFile) {
  MainWindow window;
  EXPECT_FALSE(window.openFile("no_such_piece.dryfit"));
  const QString line = window.findChild<QLabel*>("message")->text();
  EXPECT_TRUE(line.contains("no_such_piece.dryfit")) << line.toStdString();
  EXPECT_FALSE(line.contains('\n'));
  EXPECT_FALSE(window.document().isOpen());
}

}  // namespace
}  // namespace dryfit::viewer

int main(int argc, char** argv) {
  testing::InitGoogleTest(&argc, argv);
  qputenv("QT_QPA_PLATFORM", "xcb");  // the view needs an X window
  QApplication app(argc, argv);
  dryfit::viewer::dress(app);
  return RUN_ALL_TESTS();
}

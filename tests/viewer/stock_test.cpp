// The stock and layout pages and the drawing page, driven as a maker would.

#include <gtest/gtest.h>

#include <QAbstractItemModel>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QTabWidget>
#include <QTableView>
#include <QTemporaryDir>
#include <QTest>
#include <QUndoStack>
#include <fstream>

#include "joinery/base/read_whole.h"
#include "joinery/stock/stock_file.h"
#include "tests/viewer/frame_model.h"
#include "viewer/pages/drawing_page.h"
#include "viewer/pages/layout_picture.h"
#include "viewer/tables/stock_table.h"
#include "viewer/view/view3d.h"
#include "viewer/window/main_window.h"

namespace dryfit::viewer {
namespace {

using joinery::PartId;

constexpr int kPatience = 180'000;  // ms; slow machines and sanitizers

constexpr auto kStock = R"({
  "format": "dryfit-stock", "version": 1, "unit": "mm", "currency": "EUR",
  "sheets": {"ply": {"species": "birch plywood", "thickness": 6, "length": 1250, "width": 1250,
                     "count": 1, "price": 20}},
  "boards": {
    "first": {"species": "white oak", "length": 2400, "width": [150, 140], "thickness": 27,
              "price": 30},
    "second": {"species": "white oak", "length": 900, "width": 140, "thickness": 27, "price": 12}
  }
})";

class StockBench : public testing::Test {
 protected:
  void SetUp() override {
    const std::filesystem::path model = folder_.filePath("door.dryfit").toStdString();
    stock_ = folder_.filePath("rack.json").toStdString();
    std::ofstream(model) << test::kFrameModel;
    std::ofstream(stock_) << kStock;
    window_.show();
    ASSERT_TRUE(QTest::qWaitForWindowExposed(&window_));
    ASSERT_TRUE(window_.openFile(model));
    ASSERT_TRUE(window_.openStock(stock_));
    ASSERT_TRUE(QTest::qWaitFor([this] { return !window_.document().isBuilding(); }, kPatience));
  }

  template <class T>
  T* child(const char* name) {
    return window_.findChild<T*>(name);
  }
  StockDesk& desk() { return window_.desk(); }
  void layOut() {
    QTest::mouseClick(child<QPushButton>("layOut"), Qt::LeftButton);
    ASSERT_TRUE(QTest::qWaitFor([this] { return !desk().isWorking(); }, kPatience));
    ASSERT_NE(desk().job(), nullptr);
  }
  bool edit(const char* item, int column, const QString& text) {
    auto* model = child<QTableView>("stock")->model();
    for (int row = 0; row < model->rowCount(); ++row) {
      if (model->index(row, 0).data().toString() != item) continue;
      return model->setData(model->index(row, column), text, Qt::EditRole);
    }
    return false;
  }

  QTemporaryDir folder_;
  std::filesystem::path stock_;
  MainWindow window_;
};

TEST_F(StockBench, LaysEveryPartOutAndShowsTheBoards) {
  ASSERT_NO_FATAL_FAILURE(layOut());
  EXPECT_TRUE(desk().job()->layout.unplaced.empty());
  EXPECT_EQ(child<QListWidget>("layoutStock")->count(),
            static_cast<int>(desk().job()->layout.stock.size()));
  EXPECT_EQ(child<QTabWidget>("lowerPages")->currentIndex(), 2) << "the layout comes to the front";
  EXPECT_FALSE(desk().isOutdated());
}

TEST_F(StockBench, CutsWithTheMachinesChosen) {
  auto* sheets = child<QWidget>("sheetSaw")->findChild<QComboBox*>();
  auto* boards = child<QWidget>("boardSaw")->findChild<QComboBox*>();
  EXPECT_EQ(boards->findText("router"), -1);
  sheets->setCurrentText("router");
  boards->setCurrentText("band saw");
  ASSERT_NO_FATAL_FAILURE(layOut());
  EXPECT_EQ(desk().settings().sheetMethod, joinery::CutMethod::free);
  EXPECT_DOUBLE_EQ(desk().settings().sheetKerf, joinery::machine(joinery::Machine::router).kerf);
  EXPECT_DOUBLE_EQ(desk().settings().boardKerf, joinery::machine(joinery::Machine::bandSaw).kerf);
  child<QWidget>("boardSaw")->findChild<QLineEdit*>()->setText("2.5");
  ASSERT_NO_FATAL_FAILURE(layOut());
  EXPECT_DOUBLE_EQ(desk().settings().boardKerf, 2.5);
}

TEST_F(StockBench, RefusesAKerfThatNoSawTakes) {
  auto* kerf = child<QWidget>("boardSaw")->findChild<QLineEdit*>();
  for (const char* text : {"1 in", "-1", "wide"}) {  // 1 in: 1 mm in a window in inches
    kerf->setText(text);
    QTest::mouseClick(child<QPushButton>("layOut"), Qt::LeftButton);
    EXPECT_FALSE(desk().isWorking()) << text;
    EXPECT_TRUE(child<QLabel>("message")->text().contains("not a kerf")) << text;
  }
}

TEST_F(StockBench, AClickOnALaidOutPartChoosesItInThePiece) {
  ASSERT_NO_FATAL_FAILURE(layOut());
  auto* picture = child<LayoutPicture>("layoutPicture");
  auto* boards = child<QListWidget>("layoutStock");
  bool found = false;
  for (int row = 0; row < boards->count() && !found; ++row) {
    boards->setCurrentRow(row);
    const auto& placed = desk().job()->layout.stock[static_cast<std::size_t>(row)].blanks.front();
    for (int x = 2; x < picture->width() && !found; x += 4) {
      for (int y = 2; y < picture->height() && !found; y += 4) {
        QTest::mouseClick(picture, Qt::LeftButton, {}, {x, y});
        const auto chosen = window_.view().chosen();
        found = chosen.size() == 1 && chosen[0] == desk().job()->blankOf(placed.blank).part;
      }
    }
  }
  EXPECT_TRUE(found);
}

TEST_F(StockBench, SaysWhenAChangedNumberHasOutrunTheLayout) {
  ASSERT_NO_FATAL_FAILURE(layOut());
  ASSERT_TRUE(window_.document().apply("wider", dimensionEdit("stile_width", "64")));
  EXPECT_TRUE(desk().isOutdated());
  ASSERT_TRUE(window_.document().apply("back", dimensionEdit("stile_width", "62")));
  EXPECT_FALSE(desk().isOutdated());
  ASSERT_TRUE(edit("first", StockTable::nearWidth, "149"));
  EXPECT_TRUE(desk().isOutdated());
}

TEST_F(StockBench, TakesAMeasuredBoardInPlaceAndSavesIt) {
  ASSERT_TRUE(edit("second", StockTable::length, "884.5"));
  EXPECT_FALSE(edit("second", StockTable::length, "-3"));
  EXPECT_FALSE(edit("second", StockTable::length, "long"));
  EXPECT_FALSE(edit("second", StockTable::price, "dear"));
  const std::filesystem::path saved = folder_.filePath("measured.json").toStdString();
  ASSERT_TRUE(desk().saveAs(saved));
  const auto again = joinery::loadStock(saved);
  ASSERT_TRUE(again) << again.error().line();
  ASSERT_EQ(again->items.size(), 3U);
  EXPECT_DOUBLE_EQ(again->items[2].length, 884.5);
  EXPECT_DOUBLE_EQ(again->items[1].farWidth, 140);
}

TEST_F(StockBench, DoesNotWriteOverAListThatAnotherProgramHasChanged) {
  ASSERT_TRUE(edit("second", StockTable::length, "884.5"));
  const std::string theirs = std::string(kStock) + "\n";
  std::ofstream(stock_) << theirs;
  const auto refused = desk().saveAs(stock_);
  ASSERT_FALSE(refused);
  EXPECT_NE(refused.error().what.find("another program has changed"), std::string::npos);
  EXPECT_EQ(joinery::readWhole(stock_, "stock list").value(), theirs);
  EXPECT_TRUE(desk().isChanged()) << "what was measured is still on the page";
  const std::filesystem::path beside = folder_.filePath("beside.json").toStdString();
  ASSERT_TRUE(desk().saveAs(beside));
  ASSERT_TRUE(edit("second", StockTable::length, "880"));
  EXPECT_TRUE(desk().saveAs(beside)) << "its own writing is no other's";
}

TEST_F(StockBench, TakesAChangeOfTheStockBackAndKnowsThatNothingIsUnsavedThen) {
  ASSERT_NO_FATAL_FAILURE(layOut());
  ASSERT_FALSE(window_.document().isChanged());
  ASSERT_TRUE(edit("second", StockTable::length, "884.5"));
  EXPECT_TRUE(desk().isChanged());
  EXPECT_FALSE(window_.document().isChanged()) << "the piece is as it was";
  ASSERT_TRUE(window_.document().apply("wider", dimensionEdit("stile_width", "64")));
  QUndoStack& steps = window_.document().undoStack();
  steps.undo();
  EXPECT_DOUBLE_EQ(desk().list().items[2].length, 884.5) << "one step at a time";
  steps.undo();
  EXPECT_DOUBLE_EQ(desk().list().items[2].length, 900);
  EXPECT_FALSE(desk().isChanged());
  EXPECT_FALSE(desk().isOutdated()) << "the layout is of this stock again";
  steps.redo();
  EXPECT_DOUBLE_EQ(desk().list().items[2].length, 884.5);
}

TEST_F(StockBench, LeavesAListAloneThatWasOpenedAfterTheChange) {
  ASSERT_TRUE(edit("second", StockTable::length, "884.5"));
  ASSERT_TRUE(window_.openStock(stock_));
  window_.document().undoStack().undo();
  EXPECT_DOUBLE_EQ(desk().list().items[2].length, 900);
  EXPECT_FALSE(desk().isChanged());
}

TEST_F(StockBench, ZoomsIntoADrawingAndShowsTheWholeSheetOfTheNextPart) {
  child<QTabWidget>("piecePages")->setCurrentIndex(1);
  auto* drawing = child<DrawingPage>("drawing");
  ASSERT_TRUE(QTest::qWaitFor([&] { return drawing->isUpToDate(); }, kPatience));
  const QImage whole = drawing->grab().toImage();
  QTest::keyClick(drawing, Qt::Key_Plus);
  QTest::keyClick(drawing, Qt::Key_Plus);
  EXPECT_NEAR(drawing->enlarged(), 1.44, 1e-9);
  EXPECT_NE(drawing->grab().toImage(), whole);
  QTest::keyClick(drawing, Qt::Key_Home);
  EXPECT_EQ(drawing->grab().toImage(), whole);
  QTest::keyClick(drawing, Qt::Key_Plus);
  drawing->choose(PartId(0));
  EXPECT_DOUBLE_EQ(drawing->enlarged(), 1);
}

TEST_F(StockBench, CallsASheetByItsThicknessNotByTheLeastItMayMeasure) {
  ASSERT_NO_FATAL_FAILURE(layOut());
  const auto& job = *desk().job();
  bool any = false;
  for (std::size_t i = 0; i < job.layout.blanks.size(); ++i) {
    if (job.layout.blanks[i].form != joinery::StockForm::sheet) continue;
    any = true;
    const std::string size = job.roughSizeOf(static_cast<int>(i));
    EXPECT_TRUE(size.ends_with(" × 6")) << size;  // ply6
  }
  EXPECT_TRUE(any);
}

TEST_F(StockBench, NamesWhatHasNoPlaceAndWhatToBuy) {
  ASSERT_TRUE(edit("first", StockTable::length, "400"));
  ASSERT_TRUE(edit("second", StockTable::length, "400"));
  ASSERT_NO_FATAL_FAILURE(layOut());
  EXPECT_FALSE(desk().job()->layout.unplaced.empty());
  EXPECT_TRUE(child<QLabel>("layoutLacking")->text().contains("Buy "));
}

TEST_F(StockBench, DrawsTheChosenPartAndFollowsTheNumbers) {
  auto* pages = child<QTabWidget>("piecePages");
  auto* drawing = child<DrawingPage>("drawing");
  pages->setCurrentIndex(1);
  ASSERT_TRUE(QTest::qWaitFor([&] { return drawing->isUpToDate(); }, kPatience));
  const QImage whole = drawing->grab().toImage();
  drawing->choose(PartId(0));
  ASSERT_TRUE(QTest::qWaitFor([&] { return drawing->isUpToDate(); }, kPatience));
  const QImage stile = drawing->grab().toImage();
  EXPECT_NE(stile, whole);
  ASSERT_TRUE(window_.document().apply("narrower", dimensionEdit("stile_width", "40")));
  ASSERT_TRUE(QTest::qWaitFor([this] { return !window_.document().isBuilding(); }, kPatience));
  ASSERT_TRUE(QTest::qWaitFor([&] { return drawing->isUpToDate(); }, kPatience));
  EXPECT_NE(drawing->grab().toImage(), stile);
}

}  // namespace
}  // namespace dryfit::viewer

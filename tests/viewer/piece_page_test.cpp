// What is written of the piece as a whole is changed in its page, and taken back to the bytes.

#include <QLabel>
#include <QLineEdit>
#include <QTabWidget>
#include <QTableWidget>

#include "joinery/file/piece_edits.h"
#include "tests/viewer/bench_fixture.h"
#include "viewer/building/piece_page.h"

namespace dryfit::viewer {
namespace {

class WholePiece : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    page_ = window_.findChild<PiecePage*>("piecePage");
    ASSERT_NE(page_, nullptr);
    for (auto* tabs : window_.findChildren<QTabWidget*>()) {
      if (tabs->indexOf(page_) >= 0) tabs->setCurrentWidget(page_);
    }
    before_ = document().file().text();
  }
  void type(const char* name, const QString& text) {
    auto* line = page_->findChild<QLineEdit*>(name);
    ASSERT_NE(line, nullptr) << name;
    line->setFocus();
    line->selectAll();
    if (text.isEmpty()) QTest::keyClick(line, Qt::Key_Delete);
    QTest::keyClicks(line, text);
    QTest::keyClick(line, Qt::Key_Return);
  }
  QString wrong() { return page_->findChild<QLabel*>("pieceWrong")->text(); }

  PiecePage* page_ = nullptr;
  std::string before_;
};

TEST_F(WholePiece, HasItsNameAndBriefChangedInPlace) {
  type("piece__name", "Door of the oven house");
  EXPECT_EQ(document().model().name, "Door of the oven house");
  type("piece_brief_width", "door_width");
  EXPECT_EQ(joinery::pieceText(document().file(), "brief", "width"), "door_width");
  EXPECT_EQ(wrong(), "");
  while (document().undoStack().canUndo()) document().undoStack().undo();
  EXPECT_EQ(document().file().text(), before_);
}

TEST_F(WholePiece, RefusesWhatIsNoNumberAndSaysWhy) {
  type("piece_finish_coats", "many ((");
  EXPECT_NE(wrong(), "");
  EXPECT_EQ(document().file().text(), before_);
}

TEST_F(WholePiece, GetsHardwareAndLosesIt) {
  type("newHardware", "iron_latch");
  auto* table = page_->findChild<QTableWidget*>("hardware");
  const int row = table->rowCount() - 1;
  ASSERT_GE(row, 0);
  EXPECT_EQ(table->item(row, 0)->text(), "iron_latch");
  table->item(row, 1)->setText("3");
  EXPECT_EQ(joinery::hardwareText(document().file(), "iron_latch", "count"), "3");
  while (document().undoStack().canUndo()) document().undoStack().undo();
  EXPECT_EQ(document().file().text(), before_);
}

}  // namespace
}  // namespace dryfit::viewer

// A piece is begun in the window without any file: questions, picture, findings, and off to the
// bench.

#include <gtest/gtest.h>

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QTest>

#include "tests/viewer/bench_fixture.h"
#include "viewer/document/recent_pieces.h"
#include "viewer/pages/start_page.h"

namespace dryfit::viewer {
namespace {

class Start : public testing::Test {
 protected:
  void SetUp() override {
    window_.showStart();
    window_.show();
    ASSERT_TRUE(QTest::qWaitForWindowExposed(&window_));
    page_ = window_.findChild<StartPage*>("startPage");
    ASSERT_NE(page_, nullptr);
  }
  void take(const QString& words) {
    auto* list = page_->findChild<QListWidget*>("starters");
    const auto found = list->findItems(words, Qt::MatchExactly);
    ASSERT_EQ(found.size(), 1);
    list->setCurrentItem(found.front());
    settle();
  }
  void settle() {
    ASSERT_TRUE(QTest::qWaitFor([this] { return !page_->piece()->isBuilding(); }, kPatience));
    QCoreApplication::processEvents();
  }
  template <class Entry>
  Entry* answer(const char* name) {
    auto* entry = page_->findChild<Entry*>(QString("answer_") + name);
    EXPECT_NE(entry, nullptr) << name;
    return entry;
  }
  QString wrong() { return page_->findChild<QLabel*>("wrongAnswer")->text(); }

  MainWindow window_;
  StartPage* page_ = nullptr;
};

TEST_F(Start, FollowsEachAnswer) {
  take("Bookcase");
  const std::size_t before = page_->piece()->model().parts.size();
  answer<QLineEdit>("width")->setText("700");
  EXPECT_EQ(wrong(), "");
  settle();
  const auto shown = page_->piece()->assembled();
  ASSERT_NE(shown, nullptr);
  EXPECT_NEAR(page_->piece()->piece()->values.at("side_2.right"), 700, 1e-9);
  answer<QComboBox>("back")->setCurrentText("without");
  settle();
  EXPECT_EQ(page_->piece()->model().parts.size(), before + 1) << "two rails in place of the back";
  EXPECT_TRUE(page_->findChild<QLabel*>("startFindings")->text().contains("0 errors"));
}

TEST_F(Start, TellsAnAnswerOutOfBoundsAndKeepsTheLastGoodPiece) {
  take("Bookcase");
  answer<QLineEdit>("width")->setText("2000");
  EXPECT_TRUE(wrong().contains("from 450 to 900 mm")) << wrong().toStdString();
  EXPECT_FALSE(page_->findChild<QPushButton*>("begin")->isEnabled());
  EXPECT_NEAR(page_->piece()->piece()->values.at("side_2.right"), 800, 1e-9);
  const QString told = page_->findChild<QLabel*>("startFindings")->text();
  EXPECT_FALSE(told.contains("0 errors")) << "the picture's verdict is not this answer's";
  answer<QLineEdit>("width")->setText("32 in");
  EXPECT_EQ(wrong(), "");
  EXPECT_TRUE(page_->findChild<QPushButton*>("begin")->isEnabled());
}

TEST_F(Start, BeginsAPieceThatIsUnsavedUntilItIsSaved) {
  take("Bench");
  answer<QLineEdit>("width")->setText("1300");
  settle();
  QTest::mouseClick(page_->findChild<QPushButton*>("begin"), Qt::LeftButton);
  EXPECT_FALSE(page_->isVisible());
  ASSERT_TRUE(window_.document().isOpen());
  EXPECT_TRUE(window_.document().isChanged());
  EXPECT_TRUE(window_.document().path().empty());
  const QTemporaryDir folder;
  const std::filesystem::path path = folder.filePath("seat.dryfit").toStdString();
  ASSERT_TRUE(window_.document().saveAs(path));
  EXPECT_FALSE(window_.document().isChanged());
  EXPECT_EQ(joinery::ModelFile::load(path)->text(), window_.document().file().text());
}

TEST_F(Start, WritesTheBenchPacketOfAPieceThatIsInNoFileYet) {
  take("Wall shelf");
  QTest::mouseClick(page_->findChild<QPushButton*>("begin"), Qt::LeftButton);
  ASSERT_TRUE(QTest::qWaitFor(
      [this] { return !window_.document().isBuilding() && window_.document().assembled(); },
      kPatience));
  const QTemporaryDir folder;
  const std::filesystem::path packet = folder.filePath("packet").toStdString();
  window_.writePacket(packet);
  EXPECT_TRUE(window_.packets().isWorking());
  ASSERT_TRUE(QTest::qWaitFor([this] { return !window_.packets().isWorking(); }, kPatience));
  for (const char* file : {"check.txt", "cut_list.txt", "to_buy.txt", "drawings.pdf"}) {
    EXPECT_TRUE(std::filesystem::exists(packet / file)) << file;
  }
}

TEST_F(Start, LeavesNothingOfAPacketThatIsStopped) {
  take("Wall shelf");
  QTest::mouseClick(page_->findChild<QPushButton*>("begin"), Qt::LeftButton);
  ASSERT_TRUE(QTest::qWaitFor(
      [this] { return !window_.document().isBuilding() && window_.document().assembled(); },
      kPatience));
  const QTemporaryDir folder;
  window_.writePacket(folder.filePath("packet").toStdString());
  window_.packets().stop();
  ASSERT_TRUE(QTest::qWaitFor([this] { return !window_.packets().isWorking(); }, kPatience));
  EXPECT_TRUE(std::filesystem::is_empty(folder.path().toStdString()));
}

TEST_F(Start, LetsPartsComeAndGoWithANumberOnTheBench) {
  take("Chest of drawers");
  QTest::mouseClick(page_->findChild<QPushButton*>("begin"), Qt::LeftButton);
  BenchDocument& document = window_.document();
  const auto settled = [&] {
    ASSERT_TRUE(QTest::qWaitFor([&] { return !document.isBuilding(); }, kPatience));
    QCoreApplication::processEvents();
  };
  settled();
  auto* measured = window_.findChild<QTableView*>("measured")->model();
  auto* dimensions = window_.findChild<QTableView*>("dimensions")->model();
  for (int row = 0; row < dimensions->rowCount(); ++row) {
    EXPECT_FALSE(dimensions->index(row, 0).data().toString().contains('.')) << row;
  }
  const int rows = measured->rowCount(), own = dimensions->rowCount();
  const int before = int(document.model().parts.size());
  auto* parts = window_.findChild<PartTree*>("parts");
  parts->choose({joinery::PartId(document.model().parts.size() - 1)});
  for (const char* drawers : {"2", "6", "4"}) {
    ASSERT_TRUE(document.apply("drawers", dimensionEdit("drawers", drawers)));
    settled();
    EXPECT_EQ(document.assembled()->fit->piece.parts.size(), document.model().parts.size());
    EXPECT_EQ(measured->rowCount() - rows, 3 * (int(document.model().parts.size()) - before))
        << drawers;
    EXPECT_EQ(dimensions->rowCount(), own);
  }
  document.undoStack().undo();
  document.undoStack().undo();
  settled();
}

TEST_F(Start, NamesThePiecesOpenedLatelyAndTheExamples) {
  const QTemporaryDir folder;
  const QString path = folder.filePath("door.dryfit");
  std::ofstream(path.toStdString()) << test::kFrameModel;
  ASSERT_TRUE(window_.openFile(path.toStdString()));
  EXPECT_EQ(recentPieces().front().path, path);
  window_.showStart();
  auto* list = page_->findChild<QListWidget*>("pieces");
  EXPECT_EQ(list->item(0)->text(), "door.dryfit");
  EXPECT_FALSE(list->findItems("Example: ", Qt::MatchStartsWith).empty());
}

}  // namespace
}  // namespace dryfit::viewer

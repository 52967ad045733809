// Work that was not saved when its window ended is not lost.

#include <gtest/gtest.h>

#include <unistd.h>

#include <QFile>
#include <QFileInfo>
#include <QMessageBox>
#include <QPushButton>
#include <QTest>
#include <csignal>

#include <sys/wait.h>

#include "tests/viewer/bench_fixture.h"
#include "viewer/document/recovery.h"

namespace dryfit::viewer {
namespace {

class Recovered : public testing::Test {
 protected:
  void SetUp() override {
    for (const Recovery& old : recoveries()) dropRecovery(old);
    path_ = folder_.filePath("frame.dryfit").toStdString();
    std::ofstream(path_) << test::kFrameModel;
  }
  /// A process that was there and is gone: its number is free.
  static qint64 endedProcess() {
    const pid_t child = fork();
    if (child == 0) _exit(0);
    int status = 0;
    waitpid(child, &status, 0);
    return child;
  }
  /// Changes the piece and waits for the copy; then, as after a kill, the copy of a process that is
  /// gone is all there is.
  std::string leaveUnsaved(const std::filesystem::path& path) {
    BenchDocument document;
    RecoveryKeeper keeper(document);
    if (path.empty()) {
      document.start(joinery::ModelFile::load(path_).value());
    } else {
      EXPECT_TRUE(document.open(path));
      EXPECT_FALSE(QFile::exists(keeper.file()));
    }
    const std::string name = document.model().dimensions.front().name;
    EXPECT_TRUE(document.apply("change", dimensionEdit(name, "401")));
    EXPECT_TRUE(QTest::qWaitFor([&] { return QFile::exists(keeper.file()); }, kPatience));
    const QString gone =
        QFileInfo(keeper.file()).absolutePath() + QString("/%1-1.json").arg(endedProcess());
    EXPECT_TRUE(QFile::rename(keeper.file(), gone));
    return document.file().text();
  }

  QTemporaryDir folder_;
  std::filesystem::path path_;
};

TEST_F(Recovered, WorkIsOfferedAndTakenUpOverItsFile) {
  const std::string saved = joinery::ModelFile::load(path_)->text();
  const std::string text = leaveUnsaved(path_);
  MainWindow window;
  window.show();
  window.offerRecovery();
  auto* box = window.findChild<QMessageBox*>("recoveryBox");
  ASSERT_NE(box, nullptr);
  for (QAbstractButton* button : box->buttons()) {
    if (button->text() == "Take it up") button->click();
  }
  BenchDocument& document = window.document();
  ASSERT_TRUE(document.isOpen());
  EXPECT_EQ(document.file().text(), text);
  EXPECT_EQ(document.path(), path_);
  EXPECT_TRUE(document.isChanged());
  EXPECT_EQ(joinery::ModelFile::load(path_)->text(), saved) << "the file is as it was saved last";
  document.undoStack().undo();
  EXPECT_EQ(document.file().text(), saved);
  EXPECT_TRUE(recoveries().empty());
}

TEST_F(Recovered, WorkOfAnotherPieceDoesNotComeBetweenAPieceAndItsMaker) {
  leaveUnsaved({});
  MainWindow window;
  window.show();
  ASSERT_TRUE(window.openFile(path_));
  window.offerRecovery();
  EXPECT_EQ(window.findChild<QMessageBox*>("recoveryBox"), nullptr);
  EXPECT_EQ(recoveries().size(), 1U) << "it is kept";
}

TEST_F(Recovered, WorkThatWasInNoFileIsTakenUpToo) {
  const std::string text = leaveUnsaved({});
  const auto all = recoveries();
  ASSERT_EQ(all.size(), 1U);
  EXPECT_TRUE(all[0].path.isEmpty());
  BenchDocument document;
  ASSERT_TRUE(takeUp(all[0], document));
  EXPECT_EQ(document.file().text(), text);
  EXPECT_TRUE(document.isChanged());
  dropRecovery(all[0]);
}

TEST_F(Recovered, NothingIsKeptOfWhatIsSavedOrOfAWindowThatIsOpen) {
  BenchDocument document;
  RecoveryKeeper keeper(document);
  ASSERT_TRUE(document.open(path_));
  const std::string name = document.model().dimensions.front().name;
  ASSERT_TRUE(document.apply("change", dimensionEdit(name, "401")));
  ASSERT_TRUE(QTest::qWaitFor([&] { return QFile::exists(keeper.file()); }, kPatience));
  EXPECT_TRUE(recoveries().empty()) << "this process is alive";
  ASSERT_TRUE(document.save());
  EXPECT_FALSE(QFile::exists(keeper.file()));
}

}  // namespace
}  // namespace dryfit::viewer

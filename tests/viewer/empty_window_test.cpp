#include <gtest/gtest.h>

#include <QHeaderView>
#include <QLabel>
#include <QTableView>
#include <QTest>
#include <QTreeView>
#include <Standard_Failure.hxx>
#include <array>
#include <fstream>
#include <optional>
#include <stdexcept>

#include "tests/viewer/bench_fixture.h"
#include "viewer/document/draughtsman.h"

namespace dryfit::viewer {
namespace {

constexpr std::array kTables{"parts", "joints", "dimensions", "measured", "findings", "stock"};

QAbstractItemView* viewNamed(MainWindow& window, const char* name) {
  return window.findChild<QAbstractItemView*>(name);
}

QLabel* quietLine(MainWindow& window, const char* name) {
  return viewNamed(window, name)->findChild<QLabel*>("quietLine");
}

TEST(EmptyWindow, HeadsEveryTableWithWords) {
  MainWindow window;
  for (const char* name : kTables) {
    const QAbstractItemModel* model = viewNamed(window, name)->model();
    ASSERT_GT(model->columnCount(), 2) << name;
    for (int column = 0; column < model->columnCount(); ++column) {
      const QString head = model->headerData(column, Qt::Horizontal).toString();
      ASSERT_FALSE(head.isEmpty()) << name << column;
      EXPECT_TRUE(head[0].isLetter()) << name << ": " << head.toStdString();
      EXPECT_FALSE(head.trimmed().endsWith(',')) << name << ": " << head.toStdString();
    }
  }
}

TEST(EmptyWindow, SaysHowToBeginUntilThereIsAPiece) {
  const QTemporaryDir folder;
  const std::string path = folder.filePath("door.dryfit").toStdString();
  std::ofstream(path) << test::kFrameModel;
  MainWindow window;
  window.show();
  ASSERT_TRUE(QTest::qWaitForWindowExposed(&window));
  for (const char* name : kTables) {
    const QLabel* line = quietLine(window, name);
    ASSERT_NE(line, nullptr) << name;
    EXPECT_FALSE(line->isHidden()) << name;
    EXPECT_TRUE(line->text().contains("Open")) << name << ": " << line->text().toStdString();
  }
  ASSERT_TRUE(window.openFile(path));
  for (const char* name : {"parts", "joints", "dimensions", "measured", "findings"}) {
    EXPECT_TRUE(quietLine(window, name)->isHidden()) << name;
  }
  EXPECT_FALSE(quietLine(window, "stock")->isHidden());
}

/// The line that a pen's failure becomes.
QString lineFor(Draughtsman::Pen pen) {
  Draughtsman draughtsman(nullptr, std::move(pen));
  QString line;
  QObject::connect(&draughtsman, &Draughtsman::failed, [&](const QString& text) { line = text; });
  draughtsman.draw(std::make_shared<const joinery::DryFit>(), joinery::Unit::mm, std::nullopt);
  EXPECT_TRUE(QTest::qWaitFor([&] { return !line.isEmpty(); }, kPatience));
  return line;
}

TEST(Draughtsman, TellsWhateverIsThrownWhileItDraws) {
  const QString library =
      lineFor([](auto&&...) -> Result<QByteArray> { throw Standard_Failure("no curve"); });
  EXPECT_TRUE(library.contains("the geometry library failed: no curve")) << library.toStdString();
  const QString ours =
      lineFor([](auto&&...) -> Result<QByteArray> { throw std::runtime_error("no paper"); });
  EXPECT_TRUE(ours.contains("no paper")) << ours.toStdString();
  EXPECT_FALSE(lineFor([](auto&&...) -> Result<QByteArray> { throw 7; }).isEmpty());
}

}  // namespace
}  // namespace dryfit::viewer

#pragma once

#include <gtest/gtest.h>

#include <QAction>
#include <QLabel>
#include <QLineEdit>
#include <QMouseEvent>
#include <QTableView>
#include <QTemporaryDir>
#include <QTest>
#include <algorithm>
#include <filesystem>
#include <fstream>

#include "tests/viewer/frame_model.h"
#include "viewer/tables/dimension_table.h"
#include "viewer/tables/part_tree.h"
#include "viewer/window/main_window.h"

namespace dryfit::viewer {

inline constexpr int kPatience = 20'000;  // ms; slow machines and sanitizers

/// The pointer stands there, at once: one that the X server moves comes when it likes.
inline void pointerTo(QWidget& widget, QPoint at) {
  QMouseEvent move(QEvent::MouseMove, at, widget.mapToGlobal(at), Qt::NoButton, Qt::NoButton, {});
  QCoreApplication::sendEvent(&widget, &move);
}

/// The bench window with a small door in it.
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
  void press(Qt::KeyboardModifiers with, Qt::Key key) {
    window_.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window_));
    QTest::keyClick(&window_, key, with);
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
  long findingsOfKind(joinery::FindingKind kind) {
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

}  // namespace dryfit::viewer

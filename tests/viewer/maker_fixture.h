#pragma once

#include <fstream>

#include "tests/viewer/bench_fixture.h"
#include "tests/viewer/dialogs.h"
#include "viewer/tables/part_tree.h"

namespace dryfit::viewer {

/// The bench window with a piece of the test's choice, in which a maker acts by names and keys.
class MakerAtTheBench : public testing::Test {
 protected:
  /// Puts a piece of that text on the bench.
  void openText(const std::string& text) {
    const std::string path = folder_.filePath("piece.dryfit").toStdString();
    std::ofstream(path) << text;
    ASSERT_TRUE(window_.openFile(path));
    window_.show();
    ASSERT_TRUE(QTest::qWaitForWindowExposed(&window_));
    window_.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window_));
    settle();
  }
  void settle() {
    ASSERT_TRUE(QTest::qWaitFor(
        [this] { return !document().isBuilding() && document().assembled(); }, kPatience));
    QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    QCoreApplication::processEvents();
  }
  BenchDocument& document() { return window_.document(); }
  joinery::PartId partNamed(const std::string& name) {
    const auto& parts = document().model().parts;
    const auto at = std::ranges::find(parts, name, &joinery::Part::name);
    EXPECT_NE(at, parts.end()) << name;
    return joinery::PartId(static_cast<std::size_t>(at - parts.begin()));
  }
  void choose(const std::vector<std::string>& names) {
    std::vector<joinery::PartId> ids;
    for (const std::string& name : names) ids.push_back(partNamed(name));
    auto* parts = window_.findChild<PartTree*>("parts");
    parts->choose(ids);
    Q_EMIT parts->partsChosen(ids);
  }
  void act(Qt::KeyboardModifiers with, Qt::Key key) {
    window_.activateWindow();  // a dialog may have been in front
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window_));
    QTest::keyClick(&window_, key, with);
    QCoreApplication::processEvents();
  }

  QTemporaryDir folder_;
  MainWindow window_;
};

}  // namespace dryfit::viewer

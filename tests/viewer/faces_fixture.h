#pragma once

#include <QLabel>
#include <set>

#include "tests/viewer/bench_fixture.h"
#include "tests/viewer/rack_model.h"
#include "viewer/view/view3d.h"

namespace dryfit::viewer {

/// The window with a rack in it, seen from the front, and somebody who points at its faces.
class Faces : public testing::Test {
 protected:
  void SetUp() override {
    if (!view().trouble().isEmpty()) GTEST_SKIP() << "no OpenGL here";
    const std::string path = folder_.filePath("rack.dryfit").toStdString();
    std::ofstream(path) << test::kRackModel;
    window_.resize(1270, 1000);  // thin edges are to be hit
    window_.show();
    ASSERT_TRUE(QTest::qWaitForWindowExposed(&window_));
    ASSERT_TRUE(window_.openFile(path)) << message();
    settle();
    front();
    press(Qt::Key_1, Qt::ControlModifier);
  }

  View3d& view() { return window_.view(); }
  BenchDocument& document() { return window_.document(); }
  std::string message() { return window_.findChild<QLabel*>("message")->text().toStdString(); }
  void settle() {
    ASSERT_TRUE(QTest::qWaitFor(
        [this] { return !document().isBuilding() && document().assembled(); }, kPatience));
    QCoreApplication::processEvents();
  }
  void front() {
    window_.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window_));
  }
  void press(Qt::Key key, Qt::KeyboardModifiers with = Qt::NoModifier) {
    QTest::keyClick(&window_, key, with);
    QCoreApplication::processEvents();
  }
  std::string nameOf(const joinery::PlaceOnPart& place) {
    return joinery::writtenName(document().assembled()->fit->piece, place);
  }
  std::string pointed() { return view().pointedPlace() ? nameOf(*view().pointedPlace()) : ""; }
  std::vector<std::string> taken() {
    std::vector<std::string> names;
    for (const auto& place : view().takenPlaces()) names.push_back(nameOf(place));
    return names;
  }
  /// Moves the pointer over the view until it is on a place of this name.
  std::optional<QPoint> find(const std::string& name, bool within = false) {
    constexpr int kStep = 5;  // pixels
    for (int y = kStep; y < view().height(); y += kStep) {
      for (int x = kStep; x < view().width(); x += kStep) {
        pointerTo(view(), {x, y});
        if (pointed() != name) continue;
        if (!within) return QPoint(x, y);
        // Not on its very edge, which two places share.
        const QPoint further(x + 1, y + 1);
        pointerTo(view(), further);
        if (pointed() == name) return further;
      }
    }
    return std::nullopt;
  }
  /// What the pointer finds on its way over the view.
  std::set<std::string> inSight() {
    std::set<std::string> names;
    constexpr int kStep = 16;  // pixels
    for (int y = kStep; y < view().height(); y += kStep) {
      for (int x = kStep / 4; x < view().width(); x += kStep / 4) {
        pointerTo(view(), {x, y});
        names.insert(pointed());
      }
    }
    return names;
  }
  void click(const std::string& name, Qt::KeyboardModifiers with = Qt::NoModifier) {
    const auto at = find(name, true);
    ASSERT_TRUE(at) << name << " is nowhere in sight";
    QTest::mouseClick(&view(), Qt::LeftButton, with, *at);
  }
  /// By keys alone: part after part, face after face.
  void walkTo(const std::string& name) {
    for (std::size_t part = 0; part <= document().model().parts.size(); ++part) {
      for (int face = 0; face < 12; ++face) {
        if (pointed() == name) return;
        press(Qt::Key_F7);
      }
      press(Qt::Key_F8, Qt::ShiftModifier);
    }
    ADD_FAILURE() << name << " is not reached by keys";
  }

  QTemporaryDir folder_;
  MainWindow window_;
};

}  // namespace dryfit::viewer

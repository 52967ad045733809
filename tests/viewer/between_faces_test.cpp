// Faces in the view: walked to, picked, measured between, moved; and a part that is put between
// them; by the mouse and by keys alone.

#include <gtest/gtest.h>

#include <QComboBox>
#include <QDialog>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTest>

#include "joinery/piece/part_face.h"
#include "tests/viewer/bench_fixture.h"
#include "tests/viewer/dialogs.h"
#include "viewer/view/view3d.h"

namespace dryfit::viewer {
namespace {

using joinery::Face;
using joinery::PartFace;
using joinery::PartId;

/// A bookcase with a shelf that is there three times, and no door yet.
constexpr const char* kBookcase = R"({
  "format": "dryfit-model", "version": 1, "name": "Bookcase", "unit": "mm",
  "dimensions": {"case_width": 640, "case_height": 900, "case_depth": 260},
  "materials": {"ash": {"kind": "solid", "species": "white ash", "thickness": 20}},
  "parts": {
    "left_side": {"material": "ash",
      "length": {"along": "z", "from": 0, "to": "case_height"},
      "width": {"along": "y", "from": 0, "to": "case_depth"},
      "thickness": {"along": "x", "from": 0}},
    "right_side": {"material": "ash",
      "length": {"along": "z", "from": 0, "to": "case_height"},
      "width": {"along": "y", "from": 0, "to": "case_depth"},
      "thickness": {"along": "x", "to": "case_width"}},
    "bottom": {"material": "ash",
      "length": {"along": "x", "from": "left_side.right", "to": "right_side.left"},
      "width": {"along": "y", "from": 24, "to": "case_depth"},
      "thickness": {"along": "z", "from": 40}},
    "top": {"material": "ash",
      "length": {"along": "x", "from": "left_side.right", "to": "right_side.left"},
      "width": {"along": "y", "from": 24, "to": "case_depth"},
      "thickness": {"along": "z", "to": "case_height"}},
    "shelf": {"material": "ash",
      "repeat": {"count": 3, "spread": {"along": "z", "from": "bottom.top", "to": "top.bottom"}},
      "length": {"along": "x", "from": "left_side.right", "to": "right_side.left"},
      "width": {"along": "y", "from": 30, "to": "case_depth"},
      "thickness": {"along": "z"}}
  }
})";

class BetweenFaces : public testing::Test {
 protected:
  void SetUp() override {
    path_ = folder_.filePath("bookcase.dryfit").toStdString();
    std::ofstream(path_) << kBookcase;
    window_.resize(1280, 900);
    window_.show();
    ASSERT_TRUE(QTest::qWaitForWindowExposed(&window_));
    ASSERT_TRUE(window_.openFile(path_)) << message().toStdString();
    window_.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window_));
    settle();
    if (!view().trouble().isEmpty()) GTEST_SKIP() << "no OpenGL here";
    before_ = document().file().text();
  }
  void settle() {
    ASSERT_TRUE(QTest::qWaitFor(
        [this] { return !document().isBuilding() && document().assembled(); }, kPatience));
    QCoreApplication::processEvents();
  }
  BenchDocument& document() { return window_.document(); }
  View3d& view() { return window_.view(); }
  QString message() { return window_.findChild<QLabel*>("message")->text(); }
  QString measure() { return window_.findChild<QLabel*>("measure")->text(); }
  const joinery::Piece& piece() { return *document().piece(); }
  PartId partNamed(const std::string& name) {
    const auto& parts = document().model().parts;
    const auto at = std::ranges::find(parts, name, &joinery::Part::name);
    EXPECT_NE(at, parts.end()) << name;
    return PartId(static_cast<std::size_t>(at - parts.begin()));
  }
  void press(Qt::KeyboardModifiers with, Qt::Key key) {
    window_.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window_));
    QTest::keyClick(&window_, key, with);
    QCoreApplication::processEvents();
  }
  bool isLit(PartId part, Face face) {
    const auto& lit = view().pointedPlace();
    return lit && lit->part == part && lit->faces == std::vector{face};
  }
  void choosePart(const std::string& name) {
    auto* parts = window_.findChild<PartTree*>("parts");
    parts->choose({partNamed(name)});
    Q_EMIT parts->partsChosen({partNamed(name)});
  }
  /// By keys alone, with the part chosen in its list.
  void walkTo(const std::string& part, Face face, bool beside) {
    view().pointAtPlace(std::nullopt);
    choosePart(part);
    for (int i = 0; i < 30; ++i) {
      press({}, Qt::Key_F7);
      if (isLit(partNamed(part), face)) {
        return press(beside ? Qt::ControlModifier : Qt::NoModifier, Qt::Key_F9);
      }
    }
    FAIL() << "never came to that face of " << part;
  }
  /// Where in the view a face is seen, found as a hand finds it.
  QPoint seenAt(const std::string& part, Face face) {
    const PartId id = partNamed(part);
    const auto isOn = [&](QPoint at) {
      pointerTo(view(), at);
      return isLit(id, face);
    };
    for (int y = 10; y < view().height(); y += 5) {
      for (int x = 10; x < view().width(); x += 5) {
        // Not on its very edge.
        const QPoint at(x, y), further(x + 2, y + 2);
        if (isOn(at) && isOn(further)) return further;
      }
    }
    ADD_FAILURE() << "no such face in sight: " << part;
    return {};
  }
  void click(const std::string& part, Face face, Qt::KeyboardModifiers with = Qt::NoModifier) {
    const QPoint at = seenAt(part, face);
    QTest::mouseClick(&view(), Qt::LeftButton, with, at);
    QCoreApplication::processEvents();
  }
  /// With the left button, by so many small steps.
  void drag(QPoint from, QPoint step, int steps) {
    QTest::mousePress(&view(), Qt::LeftButton, {}, from);
    for (int i = 1; i <= steps; ++i) {
      const QPoint at = from + step * i;
      QMouseEvent move(QEvent::MouseMove, at, view().mapToGlobal(at), Qt::LeftButton,
                       Qt::LeftButton, {});
      QCoreApplication::sendEvent(&view(), &move);
    }
    QTest::mouseRelease(&view(), Qt::LeftButton, {}, from + step * steps);
  }
  double standsAt(const std::string& part, Face face) {
    return joinery::standsAt(piece(), {partNamed(part), face});
  }
  template <class Widget>
  Widget* wait(const char* name) {
    return waitFor<Widget>(window_, name);
  }

  QTemporaryDir folder_;
  std::filesystem::path path_;
  MainWindow window_;
  std::string before_;
};

TEST_F(BetweenFaces, AreWalkedToAndPickedByKeysAlone) {
  press(Qt::ControlModifier, Qt::Key_6);
  walkTo("left_side", Face::right, false);
  EXPECT_NE(message().indexOf("left_side.right"), -1) << message().toStdString();
  walkTo("right_side", Face::left, true);
  ASSERT_EQ(view().takenPlaces().size(), 2U);
  EXPECT_EQ(measure(), "600 mm apart; x 600, y 0, z 0; parallel") << "640 less two of 20";
  press(Qt::ControlModifier, Qt::Key_5);
  EXPECT_TRUE(view().takenPlaces().empty());
  EXPECT_EQ(measure(), "");
}

TEST_F(BetweenFaces, AreMeasuredBetweenByTheMouse) {
  press(Qt::ControlModifier, Qt::Key_6);
  click("left_side", Face::front);
  click("top", Face::front, Qt::ControlModifier);
  EXPECT_EQ(measure(), "24 mm apart; x 0, y 24, z 0; parallel");
}

TEST_F(BetweenFaces, TakeADoorBetweenThem) {
  press(Qt::ControlModifier, Qt::Key_6);
  press(Qt::ControlModifier | Qt::ShiftModifier, Qt::Key_P);
  auto* dialog = wait<QDialog>("newPartDialog");
  const auto field = [&](const char* name) { return dialog->findChild<QLineEdit*>(name); };
  field("newName")->setText("door");
  // The length upright between bottom and top, the width between the sides.
  field("newLengthFrom")->setFocus();
  click("bottom", Face::top);
  EXPECT_EQ(field("newLengthFrom")->text(), "bottom.top");
  // The top's underside is not seen from above: it is walked to.
  walkTo("top", Face::bottom, false);
  EXPECT_EQ(field("newLengthTo")->text(), "top.bottom");
  walkTo("left_side", Face::right, false);
  EXPECT_EQ(field("newWidthFrom")->text(), "left_side.right");
  walkTo("right_side", Face::left, false);
  EXPECT_EQ(field("newWidthTo")->text(), "right_side.left");
  EXPECT_EQ(field("newWidthSize")->text(), "");
  click("left_side", Face::front);
  EXPECT_EQ(field("newThicknessFrom")->text(), "left_side.front");
  EXPECT_EQ(dialog->findChild<QLabel*>("newWrong")->text(), "");
  pressButton(dialog, "Make the part");
  settle();
  ASSERT_EQ(document().model().parts.size(), 8U);
  EXPECT_DOUBLE_EQ(standsAt("door", Face::left), 20);
  EXPECT_DOUBLE_EQ(standsAt("door", Face::right), 620);
  EXPECT_DOUBLE_EQ(standsAt("door", Face::bottom), 60);
  EXPECT_DOUBLE_EQ(standsAt("door", Face::top), 880);
  // It follows the case.
  ASSERT_TRUE(document().apply("wider", dimensionEdit("case_width", "700")));
  settle();
  EXPECT_DOUBLE_EQ(standsAt("door", Face::right), 680);
  press(Qt::ControlModifier, Qt::Key_Z);
  press(Qt::ControlModifier, Qt::Key_Z);
  EXPECT_EQ(document().file().text(), before_);
}

TEST_F(BetweenFaces, BeginAPartBetweenTheTwoThatArePicked) {
  press(Qt::ControlModifier, Qt::Key_6);
  walkTo("right_side", Face::left, false);
  walkTo("left_side", Face::right, true);
  press(Qt::ControlModifier | Qt::ShiftModifier, Qt::Key_P);
  auto* dialog = wait<QDialog>("newPartDialog");
  EXPECT_EQ(dialog->findChild<QLineEdit*>("newLengthFrom")->text(), "left_side.right");
  EXPECT_EQ(dialog->findChild<QLineEdit*>("newLengthTo")->text(), "right_side.left");
  pressButton(dialog, "Make the part");
  settle();
  EXPECT_DOUBLE_EQ(standsAt("rail", Face::left), 20);
  EXPECT_DOUBLE_EQ(standsAt("rail", Face::right), 620);
}

TEST_F(BetweenFaces, FillTheWindowOfANewPartWhileItHasTheKeys) {
  press(Qt::ControlModifier | Qt::ShiftModifier, Qt::Key_P);
  auto* dialog = wait<QDialog>("newPartDialog");
  const auto field = [&](const char* name) { return dialog->findChild<QLineEdit*>(name); };
  dialog->activateWindow();
  ASSERT_TRUE(QTest::qWaitForWindowActive(dialog));
  const auto key = [&](Qt::Key which, Qt::KeyboardModifiers with = Qt::NoModifier) {
    QTest::keyClick(dialog->focusWidget(), which, with);
    QCoreApplication::processEvents();
  };
  const auto walk = [&](const std::string& part, Face face) {
    for (int i = 0; i < 60 && !isLit(partNamed(part), face); ++i) {
      key(i % 7 == 6 ? Qt::Key_F8 : Qt::Key_F7, i % 7 == 6 ? Qt::ShiftModifier : Qt::NoModifier);
    }
    ASSERT_TRUE(isLit(partNamed(part), face)) << part;
    key(Qt::Key_F9);
  };
  walk("left_side", Face::right);
  walk("right_side", Face::left);
  EXPECT_EQ(field("newLengthFrom")->text(), "left_side.right");
  EXPECT_EQ(field("newLengthTo")->text(), "right_side.left");
  walk("shelf_1", Face::top);
  walk("shelf_2", Face::bottom);
  EXPECT_EQ(field("newWidthFrom")->text(), "shelf_1.top") << "one copy of the repeated shelf";
  EXPECT_EQ(field("newWidthTo")->text(), "shelf_2.bottom");
  walk("left_side", Face::back);
  EXPECT_EQ(field("newThicknessFrom")->text(), "left_side.back");
  pressButton(dialog, "Make the part");
  settle();
  EXPECT_DOUBLE_EQ(standsAt("part", Face::bottom), standsAt("shelf_1", Face::top));
  EXPECT_DOUBLE_EQ(standsAt("part", Face::top), standsAt("shelf_2", Face::bottom));
  press(Qt::ControlModifier, Qt::Key_Z);
  EXPECT_EQ(document().file().text(), before_);
}

TEST_F(BetweenFaces, ANewPartIsDryFittedBeforeItIsMade) {
  press(Qt::ControlModifier | Qt::ShiftModifier, Qt::Key_P);
  auto* dialog = wait<QDialog>("newPartDialog");
  auto* verdict = dialog->findChild<QLabel*>("newVerdict");
  const auto type = [&](const char* name, const char* text) {
    dialog->findChild<QLineEdit*>(name)->setText(text);
  };
  // Right through the left side.
  type("newLengthFrom", "0");
  type("newLengthSize", "300");
  type("newWidthFrom", "500");
  type("newWidthSize", "70");
  ASSERT_TRUE(QTest::qWaitFor([&] { return !verdict->text().isEmpty(); }, kPatience));
  EXPECT_TRUE(verdict->text().contains("overlap")) << verdict->text().toStdString();
  EXPECT_EQ(document().file().text(), before_) << "it was only tried";
  dialog->reject();
}

TEST_F(BetweenFaces, TwoSizesOfANewPartNeverRunOneWay) {
  press(Qt::ControlModifier | Qt::ShiftModifier, Qt::Key_P);
  auto* dialog = wait<QDialog>("newPartDialog");
  dialog->findChild<QComboBox*>("newLengthAlong")->setCurrentText("z");
  EXPECT_EQ(dialog->findChild<QComboBox*>("newWidthAlong")->currentText(), "x");
  EXPECT_EQ(dialog->findChild<QComboBox*>("newThicknessAlong")->currentText(), "y");
}

TEST_F(BetweenFaces, EdgesAndCornersAreMeasuredBetweenAsWell) {
  const auto at = [&](const std::string& part, std::vector<Face> faces) {
    view().pointAtPlace(std::nullopt);
    choosePart(part);
    for (int i = 0; i < 12; ++i) {
      press({}, Qt::Key_F7);
      const auto& lit = view().pointedPlace();
      if (lit && lit->part == partNamed(part) && lit->faces == faces) return;
    }
    FAIL() << "never came there on " << part;
  };
  press(Qt::ControlModifier, Qt::Key_8);
  // The diagonal of the case's front: 640 across and 900 up are 1104.35... apart.
  at("left_side", {Face::left, Face::front, Face::bottom});
  press({}, Qt::Key_F9);
  at("right_side", {Face::right, Face::front, Face::top});
  press(Qt::ControlModifier, Qt::Key_F9);
  EXPECT_EQ(measure(), "1104.4 mm apart; x 640, y 0, z 900") << "root of 1 219 600";
  press(Qt::ControlModifier, Qt::Key_7);
  at("left_side", {Face::right, Face::front});
  press({}, Qt::Key_F9);
  at("top", {Face::front, Face::top});
  press(Qt::ControlModifier, Qt::Key_F9);
  // An upright edge and a level one 24 behind it that begins at the same end.
  EXPECT_EQ(measure(), QString::fromUtf8("24 mm apart; x 0, y 24, z 0; 90° between"));
}

TEST_F(BetweenFaces, AreMovedToAnotherFaceByKeys) {
  press(Qt::ControlModifier, Qt::Key_6);
  walkTo("bottom", Face::front, false);
  press(Qt::ControlModifier, Qt::Key_M);
  auto* dialog = wait<QDialog>("moveFaceDialog");
  EXPECT_EQ(dialog->findChild<QLineEdit*>("facePlace")->text(), "24");
  walkTo("left_side", Face::front, false);
  EXPECT_EQ(dialog->findChild<QLineEdit*>("facePlace")->text(), "left_side.front");
  EXPECT_EQ(dialog->findChild<QLabel*>("faceFollows")->text(), "No other part goes along.");
  pressButton(dialog, "Move the face");
  settle();
  EXPECT_DOUBLE_EQ(standsAt("bottom", Face::front), 0);
  EXPECT_DOUBLE_EQ(standsAt("bottom", Face::back), 260);
  press(Qt::ControlModifier, Qt::Key_Z);
  EXPECT_EQ(document().file().text(), before_);
}

TEST_F(BetweenFaces, AreDraggedThoughOthersHangOnThem) {
  // The shelves, bottom and top begin at the side's inner face: they follow, they do not hold it.
  press(Qt::ControlModifier, Qt::Key_6);
  const QPoint at = seenAt("right_side", Face::left);
  QTest::mouseClick(&view(), Qt::LeftButton, {}, at);
  ASSERT_EQ(view().takenPlaces().size(), 1U);
  drag(at, QPoint(-2, 0), 12);
  settle();
  EXPECT_LT(standsAt("right_side", Face::left), 615) << "620 less what it was dragged";
  EXPECT_DOUBLE_EQ(standsAt("shelf_2", Face::right), standsAt("right_side", Face::left));
  EXPECT_EQ(document().undoStack().count(), 1);
}

TEST_F(BetweenFaces, AreDraggedInOneStep) {
  press(Qt::ControlModifier, Qt::Key_6);
  const QPoint at = seenAt("right_side", Face::front);
  QTest::mouseClick(&view(), Qt::LeftButton, {}, at);
  ASSERT_EQ(view().takenPlaces().size(), 1U);
  drag(at, QPoint(0, 3), 10);  // outwards, which is to the front: down in the view from the corner
  settle();
  EXPECT_LT(standsAt("right_side", Face::front), -5);
  EXPECT_DOUBLE_EQ(standsAt("right_side", Face::back), 260);
  EXPECT_EQ(document().undoStack().count(), 1);
  press(Qt::ControlModifier, Qt::Key_Z);
  EXPECT_EQ(document().file().text(), before_);
}

}  // namespace
}  // namespace dryfit::viewer

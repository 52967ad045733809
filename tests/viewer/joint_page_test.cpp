// One joint is changed in place, by keys, and all of it is taken back to the very bytes.

#include <QComboBox>
#include <QInputDialog>
#include <QPushButton>
#include <QTabWidget>

#include "joinery/file/joint_edits.h"
#include "joinery/piece/joint_at.h"
#include "tests/viewer/bench_fixture.h"
#include "tests/viewer/dialogs.h"
#include "viewer/building/joint_page.h"
#include "viewer/tables/joint_tree.h"
#include "viewer/view/view3d.h"

namespace dryfit::viewer {
namespace {

class OneJoint : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    before_ = document().file().text();
    auto* joints = window_.findChild<JointTree*>("joints");
    joints->setCurrentItem(joints->topLevelItem(0));
    joint_ = document().model().joints[0].name;
    press(Qt::ControlModifier, Qt::Key_L);
  }
  JointPage* page() { return window_.findChild<JointPage*>("jointPage"); }
  QLineEdit* field(const char* key) {
    auto* line = page()->findChild<QLineEdit*>(QString("joint_") + key);
    EXPECT_NE(line, nullptr) << key;
    return line;
  }
  void type(QLineEdit* line, const QString& text) {
    line->setFocus();
    line->selectAll();
    if (text.isEmpty()) QTest::keyClick(line, Qt::Key_Delete);
    QTest::keyClicks(line, text);
    QTest::keyClick(line, Qt::Key_Return);
    QCoreApplication::processEvents();
  }
  QString wrongBelow(const char* key) {
    auto* label = page()->findChild<QLabel*>(QString("jointWrong_") + key);
    return label->isVisible() ? label->text() : QString();
  }
  std::string written(const char* key) {
    return joinery::jointText(document().file(), joint_, key);
  }
  double value(const std::string& name) {
    for (const auto& number : document().piece()->joints[0].values) {
      if (number.name == name) return number.value;
    }
    ADD_FAILURE() << name;
    return 0;
  }

  std::string before_, joint_;
};

TEST_F(OneJoint, IsReachedByAKeyAndShowsWhatTheRulesGive) {
  auto* lists = window_.findChild<QTabWidget*>("partLists");
  EXPECT_EQ(lists->currentWidget(), page());
  EXPECT_EQ(page()->joint(), joint_);
  EXPECT_TRUE(page()->findChild<QComboBox*>("joint_kind")->hasFocus());
  EXPECT_EQ(field("tenon_length")->text(), "");
  EXPECT_NE(field("tenon_length")->placeholderText(), "");
}

TEST_F(OneJoint, TakesANumberInAnyUnitAndGivesItBackToTheRule) {
  const double byRule = value("tenon length");
  const QString hint = field("tenon_length")->placeholderText();
  type(field("tenon_length"), "1 1/8 in");
  EXPECT_NEAR(value("tenon length"), 28.575, 1e-9);
  EXPECT_EQ(field("tenon_length")->placeholderText(), hint) << "the rule says what it said";
  type(field("tenon_length"), "");
  EXPECT_NEAR(value("tenon length"), byRule, 1e-9);
  EXPECT_EQ(document().file().text(), before_);
}

TEST_F(OneJoint, TellsBelowTheFieldWhatIsWrongAndKeepsWhatWasTyped) {
  type(field("tenon_length"), "no_such_thing");
  EXPECT_TRUE(wrongBelow("tenon_length").contains("no_such_thing"));
  EXPECT_EQ(field("tenon_length")->text(), "no_such_thing");
  EXPECT_EQ(document().file().text(), before_);
  type(field("tenon_length"), "30");
  EXPECT_EQ(wrongBelow("tenon_length"), "");
  EXPECT_EQ(written("tenon_length"), "30");
}

TEST_F(OneJoint, BecomesOneOfAnotherKindInPlace) {
  type(field("tenon_length"), "30");
  auto* kind = page()->findChild<QComboBox*>("joint_kind");
  const int dowels = kind->findData("dowels");
  ASSERT_GE(dowels, 0);
  kind->setCurrentIndex(dowels);
  Q_EMIT kind->activated(dowels);
  settle();
  EXPECT_EQ(document().model().joints[0].kind, "dowels");
  EXPECT_TRUE(message().contains("tenon_length")) << message().toStdString();
  EXPECT_EQ(page()->joint(), joint_);
  press(Qt::ControlModifier, Qt::Key_Z);
  EXPECT_EQ(written("tenon_length"), "30");
  press(Qt::ControlModifier, Qt::Key_Z);
  EXPECT_EQ(document().file().text(), before_);
}

TEST_F(OneJoint, GetsAnotherNameAndStaysOnThePage) {
  type(page()->findChild<QLineEdit*>("joint_name"), "first_of_all");
  EXPECT_EQ(document().model().joints[0].name, "first_of_all");
  EXPECT_EQ(page()->joint(), "first_of_all");
  EXPECT_EQ(document().undoStack().count(), 1);
}

TEST_F(OneJoint, ExchangesItsPartsAndBack) {
  const auto mates = document().model().joints[0].mates;
  QTest::mouseClick(page()->findChild<QPushButton*>("jointSwap"), Qt::LeftButton);
  EXPECT_EQ(document().model().joints[0].mates[0].parts, mates[1].parts);
  EXPECT_EQ(document().model().joints[0].mates[1].parts, mates[0].parts);
  QTest::mouseClick(page()->findChild<QPushButton*>("jointSwap"), Qt::LeftButton);
  EXPECT_EQ(document().file().text(), before_);
}

TEST_F(OneJoint, NamesANumberInOneStep) {
  type(field("tenon_length"), "28");
  field("tenon_length")->setFocus();
  press(Qt::ControlModifier | Qt::ShiftModifier, Qt::Key_L);
  auto* dialog = waitFor<QInputDialog>(window_, "nameNumberDialog");
  dialog->setTextValue("tenons");
  dialog->accept();
  settle();
  EXPECT_EQ(written("tenon_length"), "tenons");
  EXPECT_NEAR(document().piece()->values.at("tenons"), 28, 1e-9);
  EXPECT_NEAR(value("tenon length"), 28, 1e-9);
  press(Qt::ControlModifier, Qt::Key_Z);
  EXPECT_EQ(written("tenon_length"), "28");
  EXPECT_FALSE(document().piece()->values.contains("tenons"));
}

TEST_F(OneJoint, LightsItsOwnFacesAndIsChosenFromAFace) {
  const auto& piece = document().assembled()->fit->piece;
  EXPECT_GT(window_.view().lightJoint(joinery::JointId(0)), 3) << "cheeks and walls of both halves";
  EXPECT_EQ(window_.view().lightJoint(std::nullopt), 0);
  auto* joints = window_.findChild<JointTree*>("joints");
  joints->setCurrentItem(joints->topLevelItem(1));
  ASSERT_NE(joints->currentJoint(), joint_);
  const joinery::PartId rail = piece.joints[0].mates[0];
  const joinery::PlacedPart& part = piece.parts[rail.index()];
  const auto made = part.featuresOf(joinery::JointId(0));
  ASSERT_FALSE(made.empty());
  const joinery::PlaceOnPart face{rail, {part.named(made.front().face)}};
  const auto here = joinery::jointsAt(piece, face);
  EXPECT_NE(std::ranges::find(here, joinery::JointId(0)), here.end());
  const kernel::Point3 middle = part.frame.place(made.front().extent.centre());
  EXPECT_EQ(joinery::jointAt(piece, rail, middle), joinery::JointId(0));
  window_.view().setPointing(Pointing::faces);
  window_.view().pointAtPlace(face);
  for (std::size_t i = 0; i < here.size() && joints->currentJoint() != joint_; ++i) {
    press(Qt::ControlModifier, Qt::Key_F8);
  }
  EXPECT_EQ(joints->currentJoint(), joint_);
}

}  // namespace
}  // namespace dryfit::viewer

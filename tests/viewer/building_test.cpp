// A piece is built in the window: parts between faces, joints where they meet, names and notes; and
// all of it is taken back to the very bytes.

#include <gtest/gtest.h>

#include <QComboBox>
#include <QDialog>
#include <QInputDialog>
#include <QLineEdit>
#include <QMenu>
#include <QMenuBar>
#include <QMessageBox>
#include <QPushButton>
#include <QTableWidget>
#include <QTest>
#include <nlohmann/json.hpp>

#include "tests/viewer/maker_fixture.h"
#include "viewer/building/part_page.h"
#include "viewer/pages/start_page.h"
#include "viewer/tables/joint_tree.h"
#include "viewer/tables/part_tree.h"
#include "viewer/view/view3d.h"

namespace dryfit::viewer {
namespace {

using joinery::PartId;

class Building : public MakerAtTheBench {
 protected:
  void open(const char* model, bool withoutJoints) {
    std::ifstream in(std::filesystem::path(DRYFIT_MODELS) / (std::string(model) + ".dryfit"));
    nlohmann::ordered_json json = nlohmann::ordered_json::parse(in);
    if (withoutJoints) json.erase("joints");
    openText(json.dump());
  }
  template <class Widget>
  Widget* wait(const char* name) {
    return waitFor<Widget>(window_, name);
  }
  static void press(const QDialog* dialog, const QString& words) { pressButton(dialog, words); }
  std::string findings() {
    std::string all;
    for (const auto& finding : document().assembled()->fit->findings) all += finding.text + "\n";
    return all;
  }
};

TEST_F(Building, JoinsTwoPartsThatArePicked) {
  open("wall-rack", true);
  const std::string before = document().file().text();
  choose({"side_1", "top_shelf"});
  act(Qt::ControlModifier, Qt::Key_J);
  auto* dialog = wait<QDialog>("joinDialog");
  auto* table = dialog->findChild<QTableWidget*>("proposals");
  ASSERT_GE(table->rowCount(), 3);
  EXPECT_EQ(table->item(0, 0)->text(), "Stopped housing");
  EXPECT_EQ(table->item(0, 1)->text(), "nothing found");
  press(dialog, "Join");
  settle();
  ASSERT_EQ(document().model().joints.size(), 1U);
  EXPECT_EQ(document().model().joints[0].kind, "stopped-housing");
  act(Qt::ControlModifier, Qt::Key_Z);
  EXPECT_EQ(document().file().text(), before);
}

TEST_F(Building, TriesANumberBeforeTheJointIsTakenAndShowsBothHalves) {
  open("wall-rack", true);
  choose({"side_1", "top_shelf"});
  act(Qt::ControlModifier, Qt::Key_J);
  auto* dialog = wait<QDialog>("joinDialog");
  auto* numbers = dialog->findChild<QTableWidget*>("proposalNumbers");
  int row = 0;
  while (row < numbers->rowCount() && numbers->item(row, 0)->text() != "Depth") ++row;
  ASSERT_LT(row, numbers->rowCount());
  const QString byRule = numbers->item(row, 2)->text();
  const auto picture = [&](const char* name) {
    const auto* label = dialog->findChild<QLabel*>(name);
    return label == nullptr ? QImage() : label->pixmap().toImage();
  };
  ASSERT_FALSE(picture("mate0_1").isNull());
  EXPECT_NE(picture("mate1_0"), picture("mate1_1")) << "the housing is to be seen";
  const QImage before = picture("mate1_1");
  numbers->item(row, 1)->setText("3 mm");
  EXPECT_EQ(numbers->item(row, 2)->text(), "3 mm");
  EXPECT_EQ(numbers->item(row, 3)->text(), "yours");
  EXPECT_NE(picture("mate1_1"), before);
  auto* words = dialog->findChild<QLabel*>("proposalWords");
  numbers->item(row, 1)->setText("3 +");
  EXPECT_FALSE(words->text().isEmpty());
  for (auto* button : dialog->findChildren<QPushButton*>()) {
    if (button->text() == "Join") {
      EXPECT_FALSE(button->isEnabled());
    }
  }
  numbers->item(row, 1)->setText("");
  EXPECT_EQ(numbers->item(row, 2)->text(), byRule);
  numbers->item(row, 1)->setText("4");
  press(dialog, "Join");
  settle();
  ASSERT_EQ(document().model().joints.size(), 1U);
  ASSERT_EQ(document().model().joints[0].parameters.size(), 1U);
  EXPECT_EQ(document().model().joints[0].parameters[0].second.text, "4");
}

TEST_F(Building, ChangesManyPartsInOneStep) {
  open("wall-rack", false);
  const std::string before = document().file().text();
  choose({"bottom_shelf", "top_shelf"});
  act(Qt::ControlModifier, Qt::Key_G);
  auto* dialog = wait<QInputDialog>("groupDialog");
  dialog->setTextValue("shelves");
  dialog->accept();
  settle();
  EXPECT_EQ(document().model().parts[partNamed("top_shelf").index()].group, "shelves");
  EXPECT_EQ(document().model().parts[partNamed("bottom_shelf").index()].group, "shelves");
  EXPECT_EQ(document().undoStack().count(), 1);
  QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
  const std::size_t had = document().model().parts.size();
  choose({"bottom_shelf", "top_shelf"});
  act(Qt::ControlModifier, Qt::Key_Delete);
  auto* box = wait<QMessageBox>("eraseBox");
  EXPECT_NE(box->informativeText().indexOf("bottom_shelf_ends"), -1);
  press(box, "Take them out");
  settle();
  EXPECT_EQ(document().model().parts.size(), had - 2);
  act(Qt::ControlModifier, Qt::Key_Z);
  act(Qt::ControlModifier, Qt::Key_Z);
  EXPECT_EQ(document().file().text(), before);
}

TEST_F(Building, JoinsAnewWhatIsJoinedAlready) {
  open("wall-rack", true);
  choose({"side_1", "top_shelf"});
  act(Qt::ControlModifier, Qt::Key_J);
  auto* first = wait<QDialog>("joinDialog");
  press(first, "Join");
  settle();
  QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
  const std::string once = document().file().text();
  choose({"side_1", "top_shelf"});
  act(Qt::ControlModifier, Qt::Key_J);
  auto* dialog = wait<QDialog>("joinDialog");
  auto* table = dialog->findChild<QTableWidget*>("proposals");
  table->setCurrentCell(1, 0);
  const QString kind = table->item(1, 0)->text();
  press(dialog, "Join");
  settle();
  ASSERT_EQ(document().model().joints.size(), 1U) << "not joined twice";
  EXPECT_NE(document().model().joints[0].kind, "stopped-housing") << kind.toStdString();
  act(Qt::ControlModifier, Qt::Key_Z);
  EXPECT_EQ(document().file().text(), once);
  auto* joints = window_.findChild<JointTree*>("joints");
  joints->setCurrentItem(joints->topLevelItem(0));
  act(Qt::ControlModifier | Qt::ShiftModifier, Qt::Key_Delete);
  EXPECT_TRUE(document().model().joints.empty());
  act(Qt::ControlModifier, Qt::Key_Z);
  EXPECT_EQ(document().file().text(), once);
}

TEST_F(Building, JoinsAllThatMeetSoThatThePieceGoesTogether) {
  open("wall-rack", true);
  const std::string before = document().file().text();
  EXPECT_NE(findings(), "");
  act(Qt::ControlModifier | Qt::ShiftModifier, Qt::Key_J);
  auto* dialog = wait<QDialog>("joinAllDialog");
  EXPECT_GE(dialog->findChild<QTableWidget*>("allProposals")->rowCount(), 12);
  press(dialog, "Join the ticked");
  settle();
  EXPECT_EQ(findings(), "");
  act(Qt::ControlModifier, Qt::Key_Z);
  settle();
  EXPECT_EQ(document().file().text(), before);
}

TEST_F(Building, EachMeetingIsJoinedByTheKindThatIsChosenForIt) {
  open("wall-rack", true);
  const std::string before = document().file().text();
  act(Qt::ControlModifier | Qt::ShiftModifier, Qt::Key_J);
  auto* dialog = wait<QDialog>("joinAllDialog");
  auto* table = dialog->findChild<QTableWidget*>("allProposals");
  auto* kinds = dialog->findChild<QComboBox*>("kindOf0");
  ASSERT_GE(kinds->count(), 2);
  const QString other = kinds->itemText(1);
  QTest::keyClick(kinds, Qt::Key_Down);
  EXPECT_EQ(kinds->currentText(), other);
  EXPECT_EQ(table->currentRow(), 0) << "the row whose kind was chosen is the one shown";
  EXPECT_TRUE(dialog->findChild<QLabel*>("proposalWords")->text().startsWith(other));
  EXPECT_FALSE(dialog->findChild<QLabel*>("mate0_1")->pixmap().isNull());
  table->item(1, 0)->setCheckState(Qt::Unchecked);
  const int meetings = table->rowCount();
  press(dialog, "Join the ticked");
  settle();
  const auto& joints = document().model().joints;
  ASSERT_FALSE(joints.empty());
  EXPECT_EQ(QString::fromStdString(joints[0].kind).replace('-', ' '), other.toLower());
  EXPECT_EQ(static_cast<int>(joints.size()) + 1, meetings);
  act(Qt::ControlModifier, Qt::Key_Z);
  EXPECT_EQ(document().file().text(), before);
}

TEST_F(Building, PutsAPartBetweenTwoOthersAndTellsWhatIsWrongWhileItIsTyped) {
  open("wall-rack", false);
  const std::string before = document().file().text();
  choose({"side_1", "side_2"});
  act(Qt::ControlModifier | Qt::ShiftModifier, Qt::Key_P);
  auto* dialog = wait<QDialog>("newPartDialog");
  EXPECT_EQ(dialog->findChild<QLineEdit*>("newLengthFrom")->text(), "side_1.right");
  EXPECT_EQ(dialog->findChild<QLineEdit*>("newLengthTo")->text(), "side_2.left");
  auto* name = dialog->findChild<QLineEdit*>("newName");
  auto* wrong = dialog->findChild<QLabel*>("newWrong");
  name->setText("back");
  EXPECT_TRUE(wrong->text().contains("is taken")) << wrong->text().toStdString();
  name->setText("upper_rail");
  EXPECT_EQ(wrong->text(), "");
  dialog->findChild<QLineEdit*>("newWidthTo")->setText("top_shelf.bottom");
  dialog->findChild<QLineEdit*>("newWidthSize")->setText("4 cm");
  press(dialog, "Make the part");
  settle();
  const auto& values = document().piece()->values;
  EXPECT_NEAR(values.at("upper_rail.length"), values.at("bottom_shelf.length"), 1e-9);
  EXPECT_NEAR(values.at("upper_rail.width"), 40, 1e-9);
  act(Qt::ControlModifier, Qt::Key_Z);
  EXPECT_EQ(document().file().text(), before);
}

TEST_F(Building, ChangesAPartInPlaceAndKeepsWhatCannotBe) {
  open("wall-rack", false);
  choose({"chart_rail"});
  auto* page = window_.findChild<PartPage*>("partPage");
  auto* size = page->findChild<QLineEdit*>("part_width_size");
  EXPECT_EQ(size->text(), "chart_rail_width");
  const auto type = [](QLineEdit* line, const char* text) {
    line->setText(text);
    Q_EMIT line->editingFinished();
  };
  type(size, "2 in");
  EXPECT_NEAR(document().piece()->values.at("chart_rail.width"), 50.8, 1e-9);
  type(size, "no_such_thing");
  EXPECT_TRUE(page->findChild<QLabel*>("wrongEntry")->text().contains("no_such_thing"));
  EXPECT_NEAR(document().piece()->values.at("chart_rail.width"), 50.8, 1e-9);
  type(size, "50");
  type(page->findChild<QLineEdit*>("part_label"), "rail before the charts");
  EXPECT_EQ(document().model().parts[partNamed("chart_rail").index()].label,
            "rail before the charts");
  settle();
}

TEST_F(Building, ShowsPartsAloneAndHidesThem) {
  open("wall-rack", false);
  const std::size_t all = document().model().parts.size();
  choose({"ledge", "ledge_lip"});
  act(Qt::ControlModifier | Qt::ShiftModifier, Qt::Key_O);
  EXPECT_EQ(window_.view().hidden().size(), all - 2);
  ASSERT_TRUE(document().apply("wider", dimensionEdit("rack_width", "700")));
  settle();
  EXPECT_EQ(window_.view().hidden().size(), all - 2) << "a changed number brings nothing back";
  act(Qt::ControlModifier | Qt::ShiftModifier, Qt::Key_H);
  EXPECT_TRUE(window_.view().hidden().empty());
  choose({"back"});
  act(Qt::ControlModifier, Qt::Key_H);
  EXPECT_EQ(window_.view().hidden(), std::vector{partNamed("back")});
}

TEST_F(Building, PutsAFindingRightByOneButton) {
  open("mistakes", false);
  const std::string before = document().file().text();
  auto* view = window_.findChild<QTableView*>("findings");
  auto* mend = window_.findChild<QPushButton*>("mend");
  ASSERT_NE(view, nullptr);
  EXPECT_FALSE(mend->isEnabled()) << "nothing is chosen yet";
  const auto& found = document().assembled()->fit->findings;
  const auto first = std::ranges::find_if(
      found, [](const joinery::Finding& finding) { return !finding.changes.empty(); });
  ASSERT_NE(first, found.end());
  const std::string text = first->text;
  view->setCurrentIndex(view->model()->index(static_cast<int>(first - found.begin()), 0));
  ASSERT_TRUE(mend->isEnabled());
  QTest::mouseClick(mend, Qt::LeftButton);
  settle();
  EXPECT_EQ(findings().find(text), std::string::npos);
  act(Qt::ControlModifier, Qt::Key_Z);
  EXPECT_EQ(document().file().text(), before);
  settle();
}

TEST_F(Building, SpreadsAShelfEvenlyInABookcaseThatBeginsAsNothing) {
  // From nothing, part by part: a side and its image, a shelf four times.
  window_.showStart();
  window_.show();
  ASSERT_TRUE(QTest::qWaitForWindowExposed(&window_));
  QTest::mouseClick(window_.findChild<QPushButton*>("beginEmpty"), Qt::LeftButton);
  settle();
  ASSERT_EQ(document().model().parts.size(), 0U);
  auto* materials = window_.findChild<QTableWidget*>("materials");
  materials->item(0, 2)->setText("black cherry");
  EXPECT_EQ(document().model().materials[0].species, "black cherry");
  materials->item(0, 2)->setText("black chery");
  EXPECT_EQ(document().model().materials[0].species, "black cherry") << "no such wood";
  QTest::mouseClick(window_.findChild<QPushButton*>("addSheet"), Qt::LeftButton);
  EXPECT_EQ(document().model().materials.back().name, "sheet_2");
  act(Qt::ControlModifier | Qt::ShiftModifier, Qt::Key_P);
  auto* side = wait<QDialog>("newPartDialog");
  side->findChild<QLineEdit*>("newName")->setText("side");
  side->findChild<QComboBox*>("newLengthAlong")->setCurrentText("z");
  side->findChild<QComboBox*>("newWidthAlong")->setCurrentText("y");
  side->findChild<QComboBox*>("newThicknessAlong")->setCurrentText("x");
  side->findChild<QLineEdit*>("newLengthTo")->setText("height");
  side->findChild<QLineEdit*>("newWidthTo")->setText("depth");
  EXPECT_EQ(side->findChild<QLabel*>("newWrong")->text(), "");
  press(side, "Make the part");
  settle();
  const auto repeat = [&](const char* part, int way, int along, const char* count, const char* from,
                          const char* to, const char* plane) {
    choose({part});
    act(Qt::ControlModifier, Qt::Key_D);
    auto* dialog = wait<QDialog>("repeatDialog");
    dialog->findChild<QComboBox*>("repeatWay")->setCurrentIndex(way);
    dialog->findChild<QComboBox*>("repeatAlong")->setCurrentIndex(along);
    dialog->findChild<QLineEdit*>("repeatCount")->setText(count);
    dialog->findChild<QLineEdit*>("repeatFrom")->setText(from);
    dialog->findChild<QLineEdit*>("repeatTo")->setText(to);
    dialog->findChild<QLineEdit*>("repeatPlane")->setText(plane);
    EXPECT_EQ(dialog->findChild<QLabel*>("repeatWrong")->text(), "");
    press(dialog, "Repeat it");
    settle();
  };
  repeat("side", 1, 0, "", "", "", "width / 2");
  choose({"side_1", "side_2"});
  act(Qt::ControlModifier | Qt::ShiftModifier, Qt::Key_P);
  auto* dialog = wait<QDialog>("newPartDialog");
  dialog->findChild<QLineEdit*>("newName")->setText("shelf");
  // A shelf lies: its width from front to back, its thickness upright.
  dialog->findChild<QComboBox*>("newWidthAlong")->setCurrentText("y");
  EXPECT_EQ(dialog->findChild<QComboBox*>("newThicknessAlong")->currentText(), "z");
  dialog->findChild<QLineEdit*>("newWidthFrom")->setText("0");
  dialog->findChild<QLineEdit*>("newWidthTo")->setText("");
  dialog->findChild<QLineEdit*>("newWidthSize")->setText("depth");
  dialog->findChild<QLineEdit*>("newThicknessFrom")->setText("100");
  EXPECT_EQ(dialog->findChild<QLabel*>("newWrong")->text(), "");
  press(dialog, "Make the part");
  settle();
  repeat("shelf", 0, 2, "4", "60", "height", "");
  act(Qt::ControlModifier | Qt::ShiftModifier, Qt::Key_J);
  auto* joints = wait<QDialog>("joinAllDialog");
  EXPECT_EQ(joints->findChild<QTableWidget*>("allProposals")->rowCount(), 8);
  press(joints, "Join the ticked");
  settle();
  EXPECT_EQ(findings(), "");
  EXPECT_EQ(document().model().parts.size(), 6U);
  EXPECT_TRUE(document().isChanged());
}

TEST_F(Building, RenamesAPartAndTakesItOutWithWhatHangsOnIt) {
  open("wall-rack", false);
  const std::string before = document().file().text();
  choose({"ledge_lip"});
  act(Qt::ControlModifier, Qt::Key_R);
  auto* name = window_.findChild<QInputDialog*>();
  ASSERT_NE(name, nullptr);
  name->setTextValue("lip");
  name->accept();
  settle();
  choose({"lip"});
  act(Qt::ControlModifier, Qt::Key_Delete);
  auto* box = wait<QMessageBox>("eraseBox");
  EXPECT_TRUE(box->informativeText().contains("lip_on_ledge"))
      << box->informativeText().toStdString();
  for (QAbstractButton* button : box->buttons()) {
    if (button->text() == "Take it out") QTest::mouseClick(button, Qt::LeftButton);
  }
  settle();
  EXPECT_EQ(document().model().parts.size(), 9U);
  EXPECT_EQ(findings(), "");
  act(Qt::ControlModifier, Qt::Key_Z);
  act(Qt::ControlModifier, Qt::Key_Z);
  EXPECT_EQ(document().file().text(), before);
  settle();
}

}  // namespace
}  // namespace dryfit::viewer

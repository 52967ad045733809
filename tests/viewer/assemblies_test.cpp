// Sub-assemblies are made, put into openings, given numbers and dissolved in the window, and all of
// it is taken back to the very bytes.

#include <gtest/gtest.h>

#include <QInputDialog>
#include <QLabel>
#include <QLineEdit>
#include <QMessageBox>
#include <QTest>

#include "joinery/file/assembly_edits.h"
#include "joinery/file/starters.h"
#include "tests/viewer/maker_fixture.h"
#include "viewer/building/face_dialog.h"
#include "viewer/tables/part_tree.h"
#include "viewer/view/view3d.h"

namespace dryfit::viewer {
namespace {

using joinery::Face;
using joinery::PartId;

class AssembliesInTheWindow : public MakerAtTheBench {
 protected:
  void open(const std::string& model) {
    std::ifstream in(std::filesystem::path(DRYFIT_MODELS) / (model + ".dryfit"));
    openText({std::istreambuf_iterator<char>(in), {}});
  }
  double value(const std::string& name) { return document().piece()->values.at(name); }

  static constexpr Qt::KeyboardModifiers kBoth = Qt::ControlModifier | Qt::ShiftModifier;
};

TEST_F(AssembliesInTheWindow, ChosenPartsBecomeOneAndAreDissolvedAgain) {
  open("wall-rack");
  const std::string before = document().file().text();
  const double top = value("top_shelf.top");
  choose({"top_shelf", "bottom_shelf"});
  act(kBoth, Qt::Key_A);
  auto* dialog = waitFor<QInputDialog>(window_, "assemblyDialog");
  dialog->setTextValue("shelves");
  dialog->accept();
  settle();
  EXPECT_EQ(joinery::useNames(document().file()), std::vector<std::string>{"shelves"});
  EXPECT_NEAR(value("shelves.top_shelf.top"), top, 1e-6);
  choose({"shelves.top_shelf"});
  act(kBoth, Qt::Key_X);
  auto* box = waitFor<QMessageBox>(window_, "dissolveBox");
  pressButton(box, "Dissolve it");
  settle();
  EXPECT_TRUE(joinery::useNames(document().file()).empty());
  EXPECT_NEAR(value("top_shelf.top"), top, 1e-6);
  act(Qt::ControlModifier, Qt::Key_Z);
  act(Qt::ControlModifier, Qt::Key_Z);
  EXPECT_EQ(document().file().text(), before);
}

TEST_F(AssembliesInTheWindow, ANumberOfOneUseIsTypedInPlace) {
  open("starters/wall_cupboard");
  const std::string before = document().file().text();
  choose({"door.panel"});
  act(kBoth, Qt::Key_V);
  auto* line = waitFor<QLineEdit>(window_, "use_stile_width");
  line->setFocus();
  line->selectAll();
  QTest::keyClicks(line, "66");
  QTest::keyClick(line, Qt::Key_Tab);
  EXPECT_NEAR(value("door.stile_1.width"), 66, 1e-9);
  line->setFocus();
  line->selectAll();
  QTest::keyClicks(line, "no_such_name");
  QTest::keyClick(line, Qt::Key_Tab);
  auto* wrong = window_.findChild<QLabel*>("useWrong_stile_width");
  EXPECT_TRUE(wrong->text().contains("no_such_name")) << wrong->text().toStdString();
  EXPECT_NEAR(value("door.stile_1.width"), 66, 1e-9) << "what is refused changes nothing";
  window_.findChild<QDialog*>("useDialog")->reject();
  settle();
  act(Qt::ControlModifier, Qt::Key_Z);
  EXPECT_EQ(document().file().text(), before);
}

TEST_F(AssembliesInTheWindow, OneIsPutBetweenFacesAndTheDryFitToldBefore) {
  open("wall-rack");
  choose({"top_shelf"});
  act(kBoth, Qt::Key_A);
  auto* name = waitFor<QInputDialog>(window_, "assemblyDialog");
  name->setTextValue("tier");
  name->accept();
  settle();
  const std::string before = document().file().text();
  const auto had = document().model().parts.size();
  act(kBoth, Qt::Key_B);
  auto* dialog = waitFor<FaceDialog>(window_, "putDialog");
  dialog->take({partNamed("side_1"), Face::right});
  dialog->take({partNamed("side_2"), Face::left});
  EXPECT_EQ(window_.findChild<QLineEdit*>("put_xFrom")->text(), "side_1.right");
  EXPECT_EQ(window_.findChild<QLineEdit*>("put_xTo")->text(), "side_2.left");
  auto* verdict = window_.findChild<QLabel*>("putVerdict");
  ASSERT_TRUE(QTest::qWaitFor([&] { return !verdict->text().isEmpty(); }, kPatience))
      << window_.findChild<QLabel*>("putWrong")->text().toStdString();
  EXPECT_EQ(document().file().text(), before) << "so far it is only tried";
  pressButton(dialog, "Put it in");
  settle();
  EXPECT_EQ(document().model().parts.size(), had + 1);
  EXPECT_EQ(joinery::usesOf(document().file(), "tier").size(), 2U);
  act(Qt::ControlModifier, Qt::Key_Z);
  EXPECT_EQ(document().file().text(), before);
}

TEST_F(AssembliesInTheWindow, APartOfACopyIsRenamedInAll) {
  open("starters/wall_cupboard");
  const std::string before = document().file().text();
  choose({"door.panel"});
  act(Qt::ControlModifier, Qt::Key_R);
  QInputDialog* dialog = nullptr;
  ASSERT_TRUE(QTest::qWaitFor(
      [&] { return (dialog = window_.findChild<QInputDialog*>()) != nullptr; }, kPatience));
  dialog->setTextValue("infill");
  dialog->accept();
  settle();
  (void)partNamed("door.infill");
  act(Qt::ControlModifier, Qt::Key_Z);
  EXPECT_EQ(document().file().text(), before);
}

}  // namespace
}  // namespace dryfit::viewer

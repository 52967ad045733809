// The folder of a bench packet is named before it is made.

#include "viewer/pages/packet_dialog.h"

#include <QDir>
#include <QPushButton>

#include "tests/viewer/bench_fixture.h"
#include "tests/viewer/dialogs.h"

namespace dryfit::viewer {
namespace {

class PacketFolder : public Bench {
 protected:
  PacketDialog* ask() {
    press(Qt::ControlModifier, Qt::Key_P);
    return waitFor<PacketDialog>(window_, "packetDialog");
  }
  static bool mayWrite(const PacketDialog* dialog) {
    for (auto* button : dialog->findChildren<QPushButton*>()) {
      if (button->text() == "Write the packet") return button->isEnabled();
    }
    return false;
  }
  static QString outcome(const PacketDialog* dialog) {
    return dialog->findChild<QLabel*>("packetOutcome")->text();
  }
};

TEST_F(PacketFolder, IsNamedByTheMakerAndMade) {
  auto* dialog = ask();
  auto* name = dialog->findChild<QLineEdit*>("packetFolder");
  const QString folder = folder_.filePath("for-the-bench");
  name->setText(folder);
  EXPECT_EQ(outcome(dialog), "It will be made.");
  pressButton(dialog, "Write the packet");
  ASSERT_TRUE(QTest::qWaitFor([this] { return !window_.packets().isWorking(); }, kPatience));
  EXPECT_TRUE(QFile::exists(folder + "/cut_list.txt")) << message().toStdString();
}

TEST_F(PacketFolder, IsRefusedWithItsReasonWhereItCannotBe) {
  auto* dialog = ask();
  auto* name = dialog->findChild<QLineEdit*>("packetFolder");
  EXPECT_TRUE(mayWrite(dialog)) << "what is proposed can be: " << name->text().toStdString();
  for (const QString& text : {QString(), QString("packet"), QString::fromStdString(path_.string()),
                              folder_.filePath("nowhere/packet")}) {
    name->setText(text);
    EXPECT_FALSE(mayWrite(dialog)) << text.toStdString();
    EXPECT_FALSE(outcome(dialog).isEmpty());
  }
  name->setText(folder_.path());
  EXPECT_TRUE(mayWrite(dialog)) << "a folder that is there already";
}

}  // namespace
}  // namespace dryfit::viewer

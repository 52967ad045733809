#include <QDesktopServices>
#include <QDir>
#include <QFileInfo>
#include <QProgressDialog>
#include <QUrl>
#include <algorithm>

#include "export/drawing/drawing_set.h"
#include "viewer/pages/packet_dialog.h"
#include "viewer/window/main_window.h"

namespace dryfit::viewer {

void MainWindow::tiePacket() {
  connect(&packets_, &PacketDesk::progressed, this, [this](int done, int all) {
    if (packetProgress_ == nullptr) return;
    packetProgress_->setMaximum(all);
    packetProgress_->setValue(std::min(done, all - 1));  // at the end it would close itself
  });
  connect(&packets_, &PacketDesk::written, this, [this](const QString& folder, int files) {
    endPacketProgress();
    packetFolder_ = folder;
    showPacket_->setEnabled(true);
    tell(tr("%1 files for the bench are in %2.").arg(files).arg(folder));
  });
  connect(&packets_, &PacketDesk::failed, this, [this](const QString& line) {
    endPacketProgress();
    warn(line);
  });
}

void MainWindow::showPacketFolder() {
  if (QDesktopServices::openUrl(QUrl::fromLocalFile(packetFolder_))) return;
  warn(tr("%1: no program of this desktop shows folders").arg(packetFolder_));
}

void MainWindow::endPacketProgress() {
  if (packetProgress_ == nullptr) return;
  packetProgress_->deleteLater();
  packetProgress_ = nullptr;
}

void MainWindow::askAndWritePacket() {
  // A folder of its own: a packet is some dozens of files.
  const QString name = tr("%1 packet").arg(QString::fromStdString(document_.model().name));
  const QString beside =
      document_.path().empty() ? QDir::homePath() : QFileInfo(nameOfFile()).absolutePath();
  auto* dialog = new PacketDialog(
      QDir(beside).filePath(QString::fromStdString(exporting::fileWord(name.toStdString()))), this);
  connect(dialog, &QDialog::accepted, this,
          [this, dialog] { writePacket(dialog->folder().toStdString()); });
  openDialog(dialog);
}

void MainWindow::writePacket(const std::filesystem::path& folder) {
  const auto assembled = document_.assembled();
  if (!assembled || document_.isBuilding()) {
    return warn(tr("The piece is still being put together: try again in a moment."));
  }
  const auto begun = packets_.write(assembled->fit, document_.unit(), folder);
  if (!begun) return warn(QString::fromStdString(begun.error().line()));
  packetProgress_ = new QProgressDialog(tr("Writing lists and drawings…"), tr("Stop"), 0, 0, this);
  packetProgress_->setWindowTitle(tr("Bench packet"));
  packetProgress_->setAutoClose(false);
  packetProgress_->setAutoReset(false);
  connect(packetProgress_, &QProgressDialog::canceled, &packets_, &PacketDesk::stop);
  packetProgress_->show();
}

}  // namespace dryfit::viewer

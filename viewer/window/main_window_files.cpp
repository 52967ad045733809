// The piece and its file: opened, saved, read again, left.

#include <QApplication>
#include <QFileDialog>
#include <QFileInfo>
#include <QMessageBox>
#include <QPushButton>
#include <QTimer>

#include "viewer/document/recent_pieces.h"
#include "viewer/look/panels.h"
#include "viewer/window/main_window.h"

namespace dryfit::viewer {
namespace {

QString fileFilter() {
  return MainWindow::tr("Dryfit pieces (*.dryfit);;All files (*)");
}

}  // namespace

bool MainWindow::openFile(const std::filesystem::path& path) {
  // A piece is open once: two windows would overwrite each other's changes.
  std::error_code unknown;
  for (QWidget* widget : QApplication::topLevelWidgets()) {
    auto* other = qobject_cast<MainWindow*>(widget);
    if (other == nullptr || other == this || !other->isVisible() || !other->document_.isOpen()) {
      continue;
    }
    if (other->document_.path().empty() ||
        !std::filesystem::equivalent(other->document_.path(), path, unknown)) {
      continue;
    }
    other->raise();
    other->activateWindow();
    other->tell(tr("It is open in this window already."));
    return true;
  }
  const Result<void> done = document_.open(path);
  if (!done) {
    warn(QString::fromStdString(done.error().line()));
    return false;
  }
  showBench();
  rememberPiece(nameOfFile());
  tell({});
  return true;
}

void MainWindow::askAndOpen() {
  if (!mayLeave()) return;
  const QString name =
      QFileDialog::getOpenFileName(this, tr("Open a piece"), nameOfFile(), fileFilter());
  if (!name.isEmpty()) openFile(name.toStdString());
}

bool MainWindow::save() {
  if (document_.path().empty()) return saveAs();
  if (document_.isOvertaken()) {
    QMessageBox box(QMessageBox::Warning, tr("Changed on disk"),
                    tr("Another program has changed %1 since it was opened here. Saving overwrites "
                       "those changes.")
                        .arg(QFileInfo(nameOfFile()).fileName()),
                    QMessageBox::NoButton, this);
    const QPushButton* over = box.addButton(tr("Overwrite"), QMessageBox::DestructiveRole);
    const QPushButton* beside = box.addButton(tr("Save as…"), QMessageBox::AcceptRole);
    box.setDefaultButton(box.addButton(tr("Cancel"), QMessageBox::RejectRole));
    box.exec();
    if (box.clickedButton() == beside) return saveAs();
    if (box.clickedButton() != over) return false;
    return saveTo(document_.path(), BenchDocument::Over::anything);
  }
  return saveTo(document_.path());
}

bool MainWindow::saveTo(const std::filesystem::path& path, BenchDocument::Over over) {
  const Result<void> done = document_.saveAs(path, over);
  if (!done) {
    warn(QString::fromStdString(done.error().line()));
    return false;
  }
  rememberPiece(nameOfFile());
  rest_.start();
  tell(tr("Saved as %1").arg(nameOfFile()));
  return true;
}

void MainWindow::readAgain() {
  const std::filesystem::path path = document_.path();
  if (openFile(path)) tell(tr("Reloaded from %1").arg(nameOfFile()));
}

void MainWindow::lookAtDisk() {
  if (!document_.isOvertaken()) return;
  if (document_.isChanged()) {
    warn(
        tr("Another program has changed the file, and you have unsaved changes. F5 loads the "
           "other version, saving keeps yours."));
  } else {
    readAgain();
  }
}

bool MainWindow::saveAs() {
  QString name =
      QFileDialog::getSaveFileName(this, tr("Save the piece as"), nameOfFile(), fileFilter());
  if (name.isEmpty()) return false;
  if (QFileInfo(name).suffix().isEmpty()) name += ".dryfit";
  return saveTo(name.toStdString());
}

bool MainWindow::mayLeave() {
  if (!document_.isChanged()) return true;
  const QString file = QFileInfo(nameOfFile()).fileName();
  switch (askAboutUnsaved(this, tr("The changes to %1 are not saved yet.").arg(file))) {
    case Unsaved::save:
      return save();
    case Unsaved::drop:
      return true;
    case Unsaved::stay:
      break;
  }
  return false;
}

}  // namespace dryfit::viewer

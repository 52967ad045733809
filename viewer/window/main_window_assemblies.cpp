// Sub-assemblies made, put into openings, changed and dissolved.

#include <QInputDialog>
#include <QMenu>
#include <QMessageBox>
#include <QPushButton>

#include "joinery/file/assembly_edits.h"
#include "viewer/building/put_dialog.h"
#include "viewer/building/use_dialog.h"
#include "viewer/look/words.h"
#include "viewer/view/view3d.h"
#include "viewer/window/main_window.h"

namespace dryfit::viewer {

void MainWindow::makeAssemblyActions(QMenu& menu) {
  const auto add = [&](const QString& words, const QString& keys, void (MainWindow::*act)()) {
    building_ << menu.addAction(words, QKeySequence(keys), this, act);
  };
  menu.addSeparator();
  add(tr("Make a &sub-assembly of the chosen parts…"), "Ctrl+Shift+A", &MainWindow::askForAssembly);
  add(tr("Put a sub-assembly &between faces…"), "Ctrl+Shift+B", &MainWindow::askForOpening);
  add(tr("Numbers of the chosen sub-assembl&y…"), "Ctrl+Shift+V", &MainWindow::showUse);
  add(tr("Dissolve the chosen s&ub-assembly…"), "Ctrl+Shift+X", &MainWindow::dissolveChosen);
}

void MainWindow::askForAssembly() {
  const std::vector<std::string> parts = chosenNames();
  if (parts.empty()) return warn(tr("Choose the parts that are to be a sub-assembly."));
  auto* dialog = new QInputDialog(this);
  dialog->setObjectName("assemblyDialog");
  dialog->setWindowTitle(tr("Sub-assembly of %1").arg(listWords(parts)));
  dialog->setLabelText(
      tr("Its name: small letters, digits and _. What is joined only within it "
         "goes with it:"));
  dialog->setTextValue(QString::fromStdString(joinery::freeName(document_.file(), "unit")));
  connect(dialog, &QInputDialog::textValueSelected, this, [this, parts](const QString& name) {
    if (document_.drawnPiece() == nullptr) return;
    const auto values = document_.drawnPiece()->values;
    const auto done = document_.apply(tr("sub-assembly made"), [&](joinery::ModelFile& file) {
      return joinery::makeAssembly(file, parts, name.trimmed().toStdString(),
                                   {values.begin(), values.end()});
    });
    if (!done) warn(QString::fromStdString(done.error().line()));
  });
  openDialog(dialog);
}

void MainWindow::askForOpening() {
  if (faceDialog_) return faceDialog_->activateWindow();
  if (document_.drawnPiece() == nullptr) {
    return warn(tr("The piece cannot be put together as it stands."));
  }
  if (joinery::assemblyNames(document_.file()).empty()) {
    return warn(tr("The piece has no sub-assembly yet: make one of chosen parts first."));
  }
  openBeside(new PutDialog(document_, trials_, joinery::facesOf(view_->takenPlaces()), this));
}

std::string MainWindow::chosenUse() const {
  const std::vector<std::string> parts = chosenNames();
  return parts.empty() ? std::string() : joinery::useOfPart(document_.file(), parts.front());
}

void MainWindow::showUse() {
  const std::string use = chosenUse();
  if (use.empty()) return warn(tr("Choose a part of the sub-assembly."));
  if (const auto values = joinery::valuesOf(document_.file(), use); !values) {
    return warn(QString::fromStdString(values.error().line()));
  }
  openDialog(new UseDialog(document_, use, this));
}

void MainWindow::dissolveChosen() {
  const std::string use = chosenUse();
  if (use.empty()) return warn(tr("Choose a part of the sub-assembly."));
  auto* box = new QMessageBox(QMessageBox::Question, tr("Dissolve a sub-assembly"),
                              tr("Dissolve %1?").arg(spaced(use)), QMessageBox::Cancel, this);
  box->setObjectName("dissolveBox");
  box->setAttribute(Qt::WA_DeleteOnClose);
  box->setInformativeText(
      tr("Its parts stay where they are, as parts of the piece with names of their own; a change "
         "to one is then no change to the others."));
  auto* yes = box->addButton(tr("Dissolve it"), QMessageBox::AcceptRole);
  connect(box, &QMessageBox::finished, this, [this, box, yes, use] {
    if (box->clickedButton() != yes) return;
    const auto done = document_.apply(tr("sub-assembly dissolved"), [&](joinery::ModelFile& file) {
      return joinery::dissolve(file, use);
    });
    if (!done) warn(QString::fromStdString(done.error().line()));
  });
  box->open();
}

}  // namespace dryfit::viewer

// Several parts changed at once.

#include <QInputDialog>
#include <QMessageBox>
#include <QPushButton>
#include <QStringList>

#include "joinery/file/many_edits.h"
#include "viewer/look/words.h"
#include "viewer/tables/part_tree.h"
#include "viewer/window/main_window.h"

namespace dryfit::viewer {
std::vector<std::string> MainWindow::chosenNames() const {
  std::vector<std::string> names;
  for (const joinery::PartId id : parts_->chosen()) {
    names.push_back(document_.model().parts[id.index()].name);
  }
  return names;
}

void MainWindow::askForMaterial() {
  const std::vector<std::string> parts = chosenNames();
  if (parts.empty()) return warn(tr("Choose the parts that are to be of another material."));
  QStringList woods;
  for (const joinery::Material& m : document_.model().materials) {
    woods << QString::fromStdString(m.name);
  }
  auto* dialog = new QInputDialog(this);
  dialog->setObjectName("materialDialog");
  dialog->setWindowTitle(tr("Material of %1").arg(listWords(parts)));
  dialog->setLabelText(tr("All of them are to be of:"));
  dialog->setComboBoxItems(woods);
  connect(dialog, &QInputDialog::textValueSelected, this, [this, parts](const QString& wood) {
    const auto done = document_.apply(tr("other material"), [&](joinery::ModelFile& file) {
      return joinery::setMaterialOf(file, parts, wood.toStdString());
    });
    if (!done) warn(QString::fromStdString(done.error().line()));
  });
  openDialog(dialog);
}

void MainWindow::askForGroup() {
  const std::vector<std::string> parts = chosenNames();
  if (parts.empty()) return warn(tr("Choose the parts that are to be a group."));
  auto* dialog = new QInputDialog(this);
  dialog->setObjectName("groupDialog");
  dialog->setWindowTitle(tr("Group of %1").arg(listWords(parts)));
  dialog->setLabelText(tr("Small letters, digits and _; without a name they are of no group:"));
  connect(dialog, &QInputDialog::textValueSelected, this, [this, parts](const QString& name) {
    const auto done = document_.apply(tr("other group"), [&](joinery::ModelFile& file) {
      return joinery::putIntoGroup(file, parts, name.trimmed().toStdString());
    });
    if (!done) warn(QString::fromStdString(done.error().line()));
  });
  openDialog(dialog);
}

void MainWindow::eraseChosen() {
  const std::vector<std::string> parts = chosenNames();
  if (parts.empty()) return warn(tr("Choose the parts that are to go."));
  const auto hangs = joinery::hangingOnAll(document_.file(), parts);
  if (!hangs) return warn(QString::fromStdString(hangs.error().line()));
  QStringList what;
  if (!hangs->joints.empty()) what << tr("These joints go too: %1.").arg(listWords(hangs->joints));
  if (!hangs->expressions.empty()) {
    what << tr("These get the number that they have now: %1.").arg(listWords(hangs->expressions));
  }
  if (!hangs->records.empty()) what << tr("These forget them: %1.").arg(listWords(hangs->records));
  const QString who = parts.size() == 1
                          ? labelWords(document_.model().parts[parts_->chosen()[0].index()])
                          : listWords(parts);
  auto* box = new QMessageBox(QMessageBox::Question, tr("Take parts out"),
                              tr("Take out %1?").arg(who), QMessageBox::Cancel, this);
  box->setObjectName("eraseBox");
  box->setAttribute(Qt::WA_DeleteOnClose);
  box->setInformativeText(what.join("\n"));
  auto* yes = box->addButton(parts.size() == 1 ? tr("Take it out") : tr("Take them out"),
                             QMessageBox::AcceptRole);
  connect(box, &QMessageBox::finished, this, [this, box, yes, parts] {
    if (box->clickedButton() != yes || document_.piece() == nullptr) return;
    const auto values = document_.piece()->values;
    const auto done = document_.apply(tr("parts taken out"), [&](joinery::ModelFile& file) {
      return joinery::eraseParts(file, parts, {values.begin(), values.end()});
    });
    if (!done) warn(QString::fromStdString(done.error().line()));
  });
  box->open();
}

}  // namespace dryfit::viewer

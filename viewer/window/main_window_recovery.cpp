#include <QLocale>
#include <QMessageBox>
#include <QPushButton>
#include <algorithm>

#include "viewer/window/main_window.h"

namespace dryfit::viewer {

void MainWindow::offerRecovery() {
  const std::vector<Recovery> all = recoveries();
  // With a piece on the bench already, only its own is of use.
  const auto wanted = std::ranges::find_if(all, [this](const Recovery& one) {
    return !document_.isOpen() || one.path.toStdString() == document_.path().string();
  });
  if (wanted == all.end()) return;
  const Recovery& one = *wanted;
  auto* box =
      new QMessageBox(QMessageBox::Question, tr("Unsaved work"),
                      tr("%1 was changed and not saved when its window ended, %2.")
                          .arg(one.title, QLocale().toString(one.when, QLocale::ShortFormat)),
                      QMessageBox::NoButton, this);
  box->setObjectName("recoveryBox");
  box->setAttribute(Qt::WA_DeleteOnClose);
  box->setInformativeText(
      one.path.isEmpty() ? tr("It was in no file yet.")
                         : tr("It belongs to %1, which is as it was saved last.").arg(one.path));
  auto* take = box->addButton(tr("Take it up"), QMessageBox::AcceptRole);
  auto* drop = box->addButton(tr("Throw it away"), QMessageBox::DestructiveRole);
  box->addButton(tr("Later"), QMessageBox::RejectRole);
  box->setDefaultButton(take);
  connect(box, &QMessageBox::finished, this, [this, box, take, drop, one] {
    if (box->clickedButton() == drop) dropRecovery(one);
    if (box->clickedButton() != take) return;
    const auto taken = takeUp(one, document_);
    if (!taken) return warn(QString::fromStdString(taken.error().line()));
    dropRecovery(one);
    showBench();
    tell(tr("Taken up. It is not saved yet."));
  });
  box->open();
}

}  // namespace dryfit::viewer

#include "viewer/pages/packet_dialog.h"

#include <QDialogButtonBox>
#include <QDir>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

namespace dryfit::viewer {

PacketDialog::PacketDialog(const QString& folder, QWidget* parent) : QDialog(parent) {
  setObjectName("packetDialog");
  setWindowTitle(tr("Bench packet"));
  folder_ = new QLineEdit(folder);
  folder_->setObjectName("packetFolder");
  folder_->setMinimumWidth(fontMetrics().averageCharWidth() * 60);
  auto* elsewhere = new QPushButton(tr("Elsewhere…"));
  elsewhere->setAutoDefault(false);
  outcome_ = new QLabel;
  outcome_->setObjectName("packetOutcome");
  outcome_->setWordWrap(true);
  auto* row = new QHBoxLayout;
  row->addWidget(folder_, 1);
  row->addWidget(elsewhere);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel);
  write_ = buttons->addButton(tr("Write the packet"), QDialogButtonBox::AcceptRole);
  auto* all = new QVBoxLayout(this);
  all->addWidget(new QLabel(tr("Lists, drawings and the piece as STEP go into this folder:")));
  all->addLayout(row);
  all->addWidget(outcome_);
  all->addWidget(buttons);
  connect(folder_, &QLineEdit::textChanged, this, &PacketDialog::showOutcome);
  connect(elsewhere, &QPushButton::clicked, this, &PacketDialog::askForPlace);
  connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  showOutcome();
}

QString PacketDialog::folder() const {
  return QDir::cleanPath(folder_->text().trimmed());
}

void PacketDialog::askForPlace() {
  const QFileInfo now(folder());
  const QString place = QFileDialog::getExistingDirectory(
      this, tr("Where the folder “%1” is to be").arg(now.fileName()), now.absolutePath());
  if (!place.isEmpty()) folder_->setText(QDir(place).filePath(now.fileName()));
}

void PacketDialog::showOutcome() {
  const QFileInfo named(folder());
  const QFileInfo above(named.absolutePath());
  const bool isName = !folder_->text().trimmed().isEmpty() && named.isAbsolute();
  QString words;
  if (!isName) {
    words = tr("Name a folder with its whole path.");
  } else if (named.isDir()) {
    words = tr("It is there already: files of the packet in it are written anew, others stay.");
  } else if (named.exists()) {
    words = tr("There is a file of that name; name a folder.");
  } else if (!above.isDir()) {
    words = tr("There is no folder %1.").arg(above.filePath());
  } else {
    words = tr("It will be made.");
  }
  outcome_->setText(words);
  write_->setEnabled(isName && (named.isDir() || (!named.exists() && above.isDir())));
}

}  // namespace dryfit::viewer

#include "viewer/building/join_all_dialog.h"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "viewer/building/proposal_panel.h"
#include "viewer/look/words.h"

namespace dryfit::viewer {
namespace {

enum Column { parts, kind, verdict, why };

/// "Rail and stile".
QString meetingWords(const joinery::Model& model, const joinery::NewJoint& joint) {
  const QString words = jointWords(model, joint);
  return titled(words.mid(words.indexOf(": ") + 2));
}

}  // namespace

JoinAllDialog::JoinAllDialog(BenchDocument& document, joinery::LiveFit& trials,
                             std::vector<joinery::MeetingChoices> meetings, QWidget* parent)
    : QDialog(parent), document_(document), trials_(trials) {
  setObjectName("joinAllDialog");
  setWindowTitle(tr("Join all that meet"));
  for (joinery::MeetingChoices& meeting : meetings) rows_.push_back({std::move(meeting)});
  table_ =
      rowTable({tr("Parts"), tr("Joint"), tr("Dry fit"), tr("What speaks for it")}, "allProposals");
  table_->setRowCount(static_cast<int>(rows_.size()));
  for (int row = 0; row < table_->rowCount(); ++row) fillRow(row);
  table_->resizeColumnsToContents();
  // A choice is wider than the words in its cell would be.
  constexpr int kCellMargins = 24;
  for (const QComboBox* kinds : table_->findChildren<QComboBox*>()) {
    table_->setColumnWidth(
        kind, std::max(table_->columnWidth(kind), kinds->sizeHint().width() + kCellMargins));
  }
  table_->horizontalHeader()->setStretchLastSection(true);
  words_ = new QLabel(rows_.empty() ? tr("No parts meet that have no joint.")
                                    : tr("Take the tick away from what is not to be joined; each "
                                         "can be changed later."));
  words_->setWordWrap(true);
  panel_ = new ProposalPanel(document_);
  panel_->setVisible(!rows_.empty());
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel);
  auto* join = buttons->addButton(tr("Join the ticked"), QDialogButtonBox::AcceptRole);
  join->setEnabled(!rows_.empty());
  auto* all = new QVBoxLayout(this);
  all->addWidget(words_);
  all->addWidget(table_, 3);
  all->addWidget(panel_, 2);
  all->addWidget(buttons);
  connect(table_, &QTableWidget::currentCellChanged, this, [this](int row) { showRow(row); });
  connect(panel_, &ProposalPanel::typed, this, [this](const joinery::NewJoint& joint) {
    if (table_->currentRow() >= 0) tryRow(table_->currentRow(), joint);
  });
  connect(buttons, &QDialogButtonBox::accepted, this, &JoinAllDialog::join);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  resize(980, 700);
  if (!rows_.empty()) table_->setCurrentCell(0, parts);
}

void JoinAllDialog::fillRow(int row) {
  Row& own = rows_[static_cast<std::size_t>(row)];
  auto* who = new QTableWidgetItem(meetingWords(document_.model(), own.now().joint));
  who->setFlags(who->flags() | Qt::ItemIsUserCheckable);
  who->setCheckState(own.now().errors == 0 ? Qt::Checked : Qt::Unchecked);
  table_->setItem(row, parts, who);
  auto* kinds = new QComboBox;
  kinds->setObjectName(QString("kindOf%1").arg(row));
  for (const joinery::JointProposal& choice : own.meeting.choices) {
    kinds->addItem(titled(spaced(choice.joint.kind)));
  }
  connect(kinds, &QComboBox::currentIndexChanged, this,
          [this, row](int choice) { chooseKind(row, choice); });
  table_->setCellWidget(row, kind, kinds);
  table_->setItem(row, verdict, new QTableWidgetItem(verdictWords(own.now())));
  table_->setItem(row, why, new QTableWidgetItem(QString::fromStdString(own.now().why)));
}

void JoinAllDialog::chooseKind(int row, int choice) {
  rows_[static_cast<std::size_t>(row)].chosen = static_cast<std::size_t>(choice);
  if (table_->currentRow() == row) return showRow(row);
  table_->setCurrentCell(row, kind);
}

void JoinAllDialog::showRow(int row) {
  if (row < 0) return panel_->say({});
  joinery::JointProposal& now = rows_[static_cast<std::size_t>(row)].now();
  panel_->show(now);
  // Those before it may be others by now than when it was tried.
  tryRow(row, now.joint);
}

bool JoinAllDialog::tryRow(int row, const joinery::NewJoint& joint) {
  joinery::ModelFile before = document_.file();
  for (int earlier = 0; earlier < row; ++earlier) {
    if (!isTicked(earlier)) continue;
    const auto& own = rows_[static_cast<std::size_t>(earlier)].now().joint;
    // What cannot stand is told in its own row.
    (void)joinery::addJoint(before, own);
  }
  joinery::JointProposal& now = rows_[static_cast<std::size_t>(row)].now();
  auto tried = joinery::tryJoint(before, joint, now.why, trials_);
  if (!tried) {
    table_->item(row, verdict)->setText(tr("cannot be"));
    panel_->refuse(QString::fromStdString(tried.error().line()));
    return false;
  }
  now = std::move(*tried);
  table_->item(row, parts)->setText(meetingWords(document_.model(), now.joint));
  table_->item(row, verdict)->setText(verdictWords(now));
  table_->item(row, why)->setText(QString::fromStdString(now.why));
  panel_->show(now);
  return true;
}

bool JoinAllDialog::isTicked(int row) const {
  return table_->item(row, parts)->checkState() == Qt::Checked;
}

void JoinAllDialog::join() {
  std::vector<joinery::NewJoint> joints;
  for (int row = 0; row < table_->rowCount(); ++row) {
    if (isTicked(row)) joints.push_back(rows_[static_cast<std::size_t>(row)].now().joint);
  }
  const auto edit = [&joints](joinery::ModelFile& file) -> Result<void> {
    for (const joinery::NewJoint& joint : joints) {
      if (auto added = joinery::addJoint(file, joint); !added) return added;
    }
    return {};
  };
  const auto done = document_.apply(tr("joints of all that meet"), edit);
  if (done) return accept();
  words_->setText(QString::fromStdString(done.error().line()));
}

}  // namespace dryfit::viewer

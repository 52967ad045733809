#include "viewer/building/join_dialog.h"

#include <QDialogButtonBox>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>

#include "viewer/building/proposal_panel.h"
#include "viewer/look/words.h"

namespace dryfit::viewer {

JoinDialog::JoinDialog(BenchDocument& document, joinery::ModelFile bare, joinery::LiveFit& trials,
                       std::vector<joinery::JointProposal> proposals, std::vector<std::string> had,
                       const QString& heading, QWidget* parent)
    : QDialog(parent),
      document_(document),
      bare_(std::move(bare)),
      trials_(trials),
      proposals_(std::move(proposals)),
      had_(std::move(had)) {
  setObjectName("joinDialog");
  setWindowTitle(tr("Join two parts"));
  table_ = rowTable({tr("Joint"), tr("Dry fit"), tr("What speaks for it")}, "proposals");
  table_->setRowCount(static_cast<int>(proposals_.size()));
  for (int row = 0; row < table_->rowCount(); ++row) {
    const joinery::JointProposal& one = proposals_[static_cast<std::size_t>(row)];
    table_->setItem(row, 0, new QTableWidgetItem(titled(spaced(one.joint.kind))));
    table_->setItem(row, 1, new QTableWidgetItem(verdictWords(one)));
    table_->setItem(row, 2, new QTableWidgetItem(QString::fromStdString(one.why)));
  }
  table_->resizeColumnsToContents();
  table_->horizontalHeader()->setStretchLastSection(true);
  panel_ = new ProposalPanel(document_);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel);
  join_ = buttons->addButton(tr("Join"), QDialogButtonBox::AcceptRole);
  auto* all = new QVBoxLayout(this);
  all->addWidget(new QLabel(heading));
  all->addWidget(table_, 2);
  all->addWidget(panel_, 3);
  all->addWidget(buttons);
  connect(panel_, &ProposalPanel::typed, this, &JoinDialog::tryAnew);
  connect(table_, &QTableWidget::currentCellChanged, this, [this](int row) { showRow(row); });
  connect(table_, &QTableWidget::cellDoubleClicked, this, &JoinDialog::join);
  connect(buttons, &QDialogButtonBox::accepted, this, &JoinDialog::join);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  resize(960, 640);
  if (table_->rowCount() > 0) table_->setCurrentCell(0, 0);
}

void JoinDialog::showRow(int row) {
  join_->setEnabled(row >= 0);
  if (row < 0) return panel_->say({});
  panel_->show(proposals_[static_cast<std::size_t>(row)]);
}

void JoinDialog::tryAnew(const joinery::NewJoint& joint) {
  const int row = table_->currentRow();
  if (row < 0) return;
  joinery::JointProposal& proposal = proposals_[static_cast<std::size_t>(row)];
  auto tried = joinery::tryJoint(bare_, joint, proposal.why, trials_);
  join_->setEnabled(tried.has_value());
  if (!tried) return panel_->refuse(QString::fromStdString(tried.error().line()));
  proposal = std::move(*tried);
  table_->item(row, 1)->setText(verdictWords(proposal));
  panel_->show(proposal);
}

void JoinDialog::join() {
  const int row = table_->currentRow();
  if (row < 0) return;
  const joinery::NewJoint joint = proposals_[static_cast<std::size_t>(row)].joint;
  const auto done = document_.apply(tr("new joint"), [&](joinery::ModelFile& file) -> Result<void> {
    for (const std::string& old : had_) {
      if (auto out = joinery::eraseJoint(file, old); !out) return out;
    }
    return joinery::addJoint(file, joint);
  });
  if (done) return accept();
  panel_->say(QString::fromStdString(done.error().line()));
}

}  // namespace dryfit::viewer

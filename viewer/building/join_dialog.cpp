#include "viewer/building/join_dialog.h"

#include <QDialogButtonBox>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "viewer/look/words.h"

namespace dryfit::viewer {
namespace {

QTableWidget* tableOf(const QStringList& heads, const char* name) {
  auto* table = new QTableWidget;
  table->setObjectName(name);
  table->setColumnCount(static_cast<int>(heads.size()));
  table->setHorizontalHeaderLabels(heads);
  table->verticalHeader()->hide();
  table->setShowGrid(false);
  table->setSelectionBehavior(QAbstractItemView::SelectRows);
  table->setSelectionMode(QAbstractItemView::SingleSelection);
  table->setEditTriggers(QAbstractItemView::NoEditTriggers);
  return table;
}

/// All numbers that the rules would give the joint, in the unit shown.
QString numberWords(const joinery::JointProposal& proposal, joinery::Unit unit) {
  QStringList numbers;
  for (const joinery::JointValue& value : proposal.numbers) {
    numbers << spaced(value.name) + " " +
                   (value.isLength ? lengthWords(value.value, unit)
                                   : QString::number(value.value, 'g', 6));
  }
  return numbers.join(", ");
}

}  // namespace

QString jointWords(const joinery::Model& model, const joinery::NewJoint& joint) {
  const auto labelled = [&](const std::string& name) {
    const auto part = std::ranges::find(model.parts, name, &joinery::Part::name);
    return part == model.parts.end() ? spaced(name) : labelWords(*part).toLower();
  };
  QStringList parts;
  for (const auto& [role, names] : joint.roles) {
    QStringList own;
    for (const std::string& name : names) own << labelled(name);
    parts << own.join(", ");
  }
  return QObject::tr("%1: %2").arg(titled(spaced(joint.kind)), parts.join(QObject::tr(" into ")));
}

QString verdictWords(const joinery::JointProposal& proposal) {
  if (proposal.findings.empty()) return QObject::tr("nothing found");
  return QObject::tr("%1 errors, %2 warnings, %3 notes")
      .arg(proposal.errors)
      .arg(proposal.warnings)
      .arg(static_cast<int>(proposal.findings.size()) - proposal.errors - proposal.warnings);
}

JoinDialog::JoinDialog(BenchDocument& document, std::vector<joinery::JointProposal> proposals,
                       std::vector<std::string> had, const QString& heading, QWidget* parent)
    : QDialog(parent), document_(document), proposals_(std::move(proposals)), had_(std::move(had)) {
  setObjectName("joinDialog");
  setWindowTitle(tr("Join two parts"));
  table_ = tableOf({tr("Joint"), tr("Dry fit"), tr("What speaks for it")}, "proposals");
  table_->setRowCount(static_cast<int>(proposals_.size()));
  for (int row = 0; row < table_->rowCount(); ++row) {
    const joinery::JointProposal& one = proposals_[static_cast<std::size_t>(row)];
    table_->setItem(row, 0, new QTableWidgetItem(titled(spaced(one.joint.kind))));
    table_->setItem(row, 1, new QTableWidgetItem(verdictWords(one)));
    table_->setItem(row, 2, new QTableWidgetItem(QString::fromStdString(one.why)));
  }
  table_->resizeColumnsToContents();
  table_->horizontalHeader()->setStretchLastSection(true);
  words_ = new QLabel;
  words_->setObjectName("proposalWords");
  words_->setWordWrap(true);
  words_->setMinimumHeight(96);
  words_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel);
  join_ = buttons->addButton(tr("Join"), QDialogButtonBox::AcceptRole);
  auto* all = new QVBoxLayout(this);
  all->addWidget(new QLabel(heading));
  all->addWidget(table_, 1);
  all->addWidget(words_);
  all->addWidget(buttons);
  connect(table_, &QTableWidget::currentCellChanged, this, [this](int row) { showRow(row); });
  connect(table_, &QTableWidget::cellDoubleClicked, this, &JoinDialog::join);
  connect(buttons, &QDialogButtonBox::accepted, this, &JoinDialog::join);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  resize(760, 420);
  if (table_->rowCount() > 0) table_->setCurrentCell(0, 0);
}

void JoinDialog::showRow(int row) {
  join_->setEnabled(row >= 0);
  if (row < 0) return words_->clear();
  const joinery::JointProposal& one = proposals_[static_cast<std::size_t>(row)];
  QStringList lines{jointWords(document_.model(), one.joint), numberWords(one, document_.unit())};
  for (const joinery::Finding& finding : one.findings) {
    lines << QString::fromStdString(finding.text);
  }
  for (const std::string& gone : one.mends) {
    lines << tr("Puts right: %1").arg(QString::fromStdString(gone));
  }
  words_->setText(lines.join("\n"));
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
  words_->setText(QString::fromStdString(done.error().line()));
}

JoinAllDialog::JoinAllDialog(BenchDocument& document, std::vector<joinery::JointProposal> proposals,
                             QWidget* parent)
    : QDialog(parent), document_(document), proposals_(std::move(proposals)) {
  setObjectName("joinAllDialog");
  setWindowTitle(tr("Join all that meet"));
  table_ = tableOf({tr("Joint"), tr("Dry fit"), tr("What speaks for it")}, "allProposals");
  table_->setRowCount(static_cast<int>(proposals_.size()));
  for (int row = 0; row < table_->rowCount(); ++row) {
    const joinery::JointProposal& one = proposals_[static_cast<std::size_t>(row)];
    auto* joint = new QTableWidgetItem(jointWords(document_.model(), one.joint));
    joint->setFlags(joint->flags() | Qt::ItemIsUserCheckable);
    joint->setCheckState(one.errors == 0 ? Qt::Checked : Qt::Unchecked);
    table_->setItem(row, 0, joint);
    table_->setItem(row, 1, new QTableWidgetItem(verdictWords(one)));
    table_->setItem(row, 2, new QTableWidgetItem(QString::fromStdString(one.why)));
  }
  table_->resizeColumnsToContents();
  table_->horizontalHeader()->setStretchLastSection(true);
  words_ = new QLabel(proposals_.empty()
                          ? tr("All parts that meet have a joint.")
                          : tr("Take the tick away from what is not to be joined, or joined "
                               "otherwise; each can be changed later."));
  words_->setWordWrap(true);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel);
  auto* join = buttons->addButton(tr("Join the ticked"), QDialogButtonBox::AcceptRole);
  join->setEnabled(!proposals_.empty());
  auto* all = new QVBoxLayout(this);
  all->addWidget(table_, 1);
  all->addWidget(words_);
  all->addWidget(buttons);
  connect(buttons, &QDialogButtonBox::accepted, this, &JoinAllDialog::join);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  resize(860, 520);
}

void JoinAllDialog::join() {
  std::vector<joinery::NewJoint> joints;
  for (int row = 0; row < table_->rowCount(); ++row) {
    if (table_->item(row, 0)->checkState() == Qt::Checked) {
      joints.push_back(proposals_[static_cast<std::size_t>(row)].joint);
    }
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

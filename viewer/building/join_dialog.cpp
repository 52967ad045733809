#include "viewer/building/join_dialog.h"

#include "joinery/joints/joint_kinds.h"

#include <QDialogButtonBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QSignalBlocker>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "viewer/building/mate_pictures.h"
#include "viewer/look/look.h"
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

constexpr int kKeyRole = Qt::UserRole;  // of a number's row: its name in the model file

/// What a number of a tried joint comes to; empty where it has none of that name.
QString worthOf(const joinery::JointProposal& proposal, std::string_view key, joinery::Unit unit) {
  for (const joinery::JointValue& value : proposal.numbers) {
    if (spaced(value.name) != spaced(key)) continue;
    return value.isLength ? fineLengthWords(value.value, unit)
                          : measureWords(value.value, "", unit);
  }
  return {};
}

/// Where a number comes from.
QString originOf(const joinery::JointProposal& proposal, std::string_view key) {
  for (const joinery::JointValue& value : proposal.numbers) {
    if (spaced(value.name) != spaced(key)) continue;
    return value.given ? QObject::tr("yours") : QString::fromStdString(value.source);
  }
  return QObject::tr("as it lies");
}

QString givenIn(const joinery::NewJoint& joint, std::string_view key) {
  for (const auto& [name, text] : joint.numbers) {
    if (name == key) return QString::fromStdString(text);
  }
  return {};
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
  words_->setMinimumHeight(80);
  words_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
  numbers_ = tableOf({tr("Number"), tr("Yours"), tr("Comes to"), tr("From")}, "proposalNumbers");
  numbers_->setEditTriggers(QAbstractItemView::AllEditTriggers);
  numbers_->horizontalHeader()->setStretchLastSection(true);
  pictures_ = new MatePictures;
  auto* beside = new QHBoxLayout;
  beside->addWidget(numbers_, 1);
  beside->addWidget(pictures_, 1);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel);
  join_ = buttons->addButton(tr("Join"), QDialogButtonBox::AcceptRole);
  auto* all = new QVBoxLayout(this);
  all->addWidget(new QLabel(heading));
  all->addWidget(table_, 2);
  all->addLayout(beside, 3);
  all->addWidget(words_);
  all->addWidget(buttons);
  connect(numbers_, &QTableWidget::itemChanged, this, &JoinDialog::tryNumber);
  connect(table_, &QTableWidget::currentCellChanged, this, [this](int row) { showRow(row); });
  connect(table_, &QTableWidget::cellDoubleClicked, this, &JoinDialog::join);
  connect(buttons, &QDialogButtonBox::accepted, this, &JoinDialog::join);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  resize(960, 640);
  if (table_->rowCount() > 0) table_->setCurrentCell(0, 0);
}

void JoinDialog::showRow(int row) {
  join_->setEnabled(row >= 0);
  if (row < 0) return words_->clear();
  fillNumbers(proposals_[static_cast<std::size_t>(row)]);
  showVerdict(row);
}

void JoinDialog::fillNumbers(const joinery::JointProposal& proposal) {
  const QSignalBlocker quiet(numbers_);
  const auto parameters = joinery::jointKindNamed(proposal.joint.kind)->parameters();
  numbers_->setRowCount(static_cast<int>(parameters.size()));
  int row = 0;
  for (const joinery::Parameter& parameter : parameters) {
    const QString key = QString::fromUtf8(parameter.name.data(), qsizetype(parameter.name.size()));
    const QString cells[] = {
        titled(spaced(parameter.name)), givenIn(proposal.joint, parameter.name),
        worthOf(proposal, parameter.name, document_.unit()), originOf(proposal, parameter.name)};
    for (int column = 0; column < numbers_->columnCount(); ++column) {
      auto* item = new QTableWidgetItem(cells[column]);
      if (column != 1) {
        item->setFlags(item->flags() & ~Qt::ItemIsEditable);
        if (column > 1) item->setForeground(QColor(colour::fadedInk));
      }
      item->setData(kKeyRole, key);
      item->setToolTip(column == 3 ? cells[column]
                                   : QString::fromUtf8(parameter.meaning.data(),
                                                       qsizetype(parameter.meaning.size())));
      numbers_->setItem(row, column, item);
    }
    ++row;
  }
}

void JoinDialog::tryNumber(const QTableWidgetItem* item) {
  const int row = table_->currentRow();
  if (row < 0 || item->column() != 1) return;
  joinery::JointProposal& proposal = proposals_[static_cast<std::size_t>(row)];
  const std::string key = item->data(kKeyRole).toString().toStdString();
  joinery::NewJoint joint = proposal.joint;
  std::erase_if(joint.numbers, [&](const auto& number) { return number.first == key; });
  if (!item->text().trimmed().isEmpty()) {
    joint.numbers.emplace_back(key, item->text().trimmed().toStdString());
  }
  auto tried = joinery::tryJoint(bare_, joint, proposal.why, trials_);
  const QSignalBlocker quiet(numbers_);
  if (!tried) {
    numbers_->item(item->row(), 1)->setBackground(QColor(colour::refused));
    words_->setText(QString::fromStdString(tried.error().line()));
    return join_->setEnabled(false);
  }
  proposal = std::move(*tried);
  const int column = numbers_->currentColumn(), at = numbers_->currentRow();
  fillNumbers(proposal);
  numbers_->setCurrentCell(at, column);
  table_->item(row, 1)->setText(verdictWords(proposal));
  join_->setEnabled(true);
  showVerdict(row);
}

void JoinDialog::showVerdict(int row) {
  const joinery::JointProposal& one = proposals_[static_cast<std::size_t>(row)];
  pictures_->show(document_.model(), one.halves);
  QStringList lines{jointWords(document_.model(), one.joint)};
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

#include "viewer/building/proposal_panel.h"

#include "joinery/joints/joint_kinds.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QSignalBlocker>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "viewer/building/mate_pictures.h"
#include "viewer/look/look.h"
#include "viewer/look/words.h"

namespace dryfit::viewer {
namespace {

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

QTableWidget* rowTable(const QStringList& heads, const char* name) {
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

ProposalPanel::ProposalPanel(const BenchDocument& document, QWidget* parent)
    : QWidget(parent), document_(document) {
  numbers_ = rowTable({tr("Number"), tr("Yours"), tr("Comes to"), tr("From")}, "proposalNumbers");
  numbers_->setEditTriggers(QAbstractItemView::AllEditTriggers);
  numbers_->horizontalHeader()->setStretchLastSection(true);
  numbers_->horizontalHeader()->setSectionResizeMode(0, QHeaderView::ResizeToContents);
  pictures_ = new MatePictures;
  words_ = new QLabel;
  words_->setObjectName("proposalWords");
  words_->setWordWrap(true);
  words_->setMinimumHeight(80);
  words_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
  auto* beside = new QHBoxLayout;
  beside->addWidget(numbers_, 1);
  beside->addWidget(pictures_, 1);
  auto* all = new QVBoxLayout(this);
  all->setContentsMargins(0, 0, 0, 0);
  all->addLayout(beside, 1);
  all->addWidget(words_);
  connect(numbers_, &QTableWidget::itemChanged, this, &ProposalPanel::takeNumber);
}

void ProposalPanel::show(const joinery::JointProposal& proposal) {
  const bool same =
      shown_.joint.name == proposal.joint.name && shown_.joint.kind == proposal.joint.kind;
  const int row = numbers_->currentRow(), column = numbers_->currentColumn();
  shown_ = proposal;
  fillNumbers();
  if (same && row >= 0) {
    const QSignalBlocker quiet(numbers_);
    numbers_->setCurrentCell(row, column);
  }
  pictures_->show(document_.model(), proposal.halves);
  QStringList lines{jointWords(document_.model(), proposal.joint)};
  for (const joinery::Finding& finding : proposal.findings) {
    lines << QString::fromStdString(finding.text);
  }
  for (const std::string& gone : proposal.mends) {
    lines << tr("Puts right: %1").arg(QString::fromStdString(gone));
  }
  words_->setText(lines.join("\n"));
}

void ProposalPanel::refuse(const QString& line) {
  const QSignalBlocker quiet(numbers_);
  if (QTableWidgetItem* item = numbers_->item(typedRow_, 1)) {
    item->setBackground(QColor(colour::refused));
  }
  words_->setText(line);
}

void ProposalPanel::say(const QString& words) {
  numbers_->setRowCount(0);
  pictures_->show(document_.model(), {});
  words_->setText(words);
}

void ProposalPanel::takeNumber(const QTableWidgetItem* item) {
  if (item->column() != 1) return;
  typedRow_ = item->row();
  const std::string key = item->data(kKeyRole).toString().toStdString();
  joinery::NewJoint joint = shown_.joint;
  std::erase_if(joint.numbers, [&](const auto& number) { return number.first == key; });
  if (!item->text().trimmed().isEmpty()) {
    joint.numbers.emplace_back(key, item->text().trimmed().toStdString());
  }
  Q_EMIT typed(joint);
}

void ProposalPanel::fillNumbers() {
  const QSignalBlocker quiet(numbers_);
  const auto parameters = joinery::jointKindNamed(shown_.joint.kind)->parameters();
  numbers_->setRowCount(static_cast<int>(parameters.size()));
  int row = 0;
  for (const joinery::Parameter& parameter : parameters) {
    const QString key = QString::fromUtf8(parameter.name.data(), qsizetype(parameter.name.size()));
    const QString cells[] = {titled(spaced(parameter.name)), givenIn(shown_.joint, parameter.name),
                             worthOf(shown_, parameter.name, document_.unit()),
                             originOf(shown_, parameter.name)};
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

}  // namespace dryfit::viewer

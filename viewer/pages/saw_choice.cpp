#include "viewer/pages/saw_choice.h"

#include <QAbstractItemView>
#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>

#include "joinery/formula/length_text.h"

namespace dryfit::viewer {
namespace {

QString inMm(double mm) {
  return QString::fromStdString(joinery::lengthText(Length::mm(mm), joinery::Unit::mm) + " mm");
}

QString nameOf(joinery::Machine machine) {
  const auto name = joinery::machine(machine).name;
  return QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size()));
}

}  // namespace

QLineEdit* makeShortLine(double mm, const QString& tip) {
  auto* line = new QLineEdit(inMm(mm));
  line->setFixedWidth(60);
  line->setAlignment(Qt::AlignRight);
  line->setToolTip(tip);
  return line;
}

SawChoice::SawChoice(const QString& words, bool forSheets, QWidget* parent)
    : QWidget(parent), machine_(new QComboBox), kerf_(makeShortLine(0, {})) {
  for (const joinery::MachineRow& row : joinery::machines()) {
    if (!joinery::saws(row.machine)) continue;
    if (row.machine == joinery::Machine::router && !forSheets) continue;
    machine_->addItem(nameOf(row.machine), static_cast<int>(row.machine));
  }
  machine_->setCurrentIndex(machine_->findData(static_cast<int>(joinery::Machine::tableSaw)));
  // The row is as wide as a usual name asks for; the open list shows the longest.
  machine_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
  machine_->setMinimumContentsLength(9);
  machine_->view()->setMinimumWidth(machine_->view()->sizeHintForColumn(0));
  machine_->setToolTip(
      forSheets ? tr("A router can cut parts out anywhere; a saw needs straight cuts right across")
                : tr("The machine that boards are ripped and crosscut with"));
  kerf_->setToolTip(tr("Kerf: width of wood that one cut takes away"));
  auto* label = new QLabel(words);
  label->setBuddy(machine_);
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(4);
  for (QWidget* one : {static_cast<QWidget*>(label), static_cast<QWidget*>(machine_),
                       static_cast<QWidget*>(kerf_)}) {
    row->addWidget(one);
  }
  takeUsualKerf();
  connect(machine_, &QComboBox::currentIndexChanged, this, &SawChoice::takeUsualKerf);
}

joinery::Machine SawChoice::machine() const {
  return static_cast<joinery::Machine>(machine_->currentData().toInt());
}

QString SawChoice::kerfText() const {
  return kerf_->text();
}

void SawChoice::typeKerfAgain() {
  kerf_->setFocus();
  kerf_->selectAll();
}

void SawChoice::takeUsualKerf() {
  kerf_->setText(inMm(joinery::machine(machine()).kerf));
}

}  // namespace dryfit::viewer

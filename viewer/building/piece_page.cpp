#include "viewer/building/piece_page.h"

#include <QFormLayout>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>
#include <array>

#include "joinery/file/piece_edits.h"
#include "viewer/building/name_completer.h"
#include "viewer/look/look.h"

namespace dryfit::viewer {
namespace {

constexpr std::array<const char*, 3> kKeys{"count", "price", "note"};

}  // namespace

PiecePage::PiecePage(BenchDocument& document, QWidget* parent)
    : QScrollArea(parent), document_(document) {
  setObjectName("piecePage");
  setWidgetResizable(true);
  setFrameShape(QFrame::NoFrame);
  auto* page = new QWidget;
  auto* all = new QVBoxLayout(page);
  auto* form = new QFormLayout;
  addField(form, tr("Name"), "", "name");
  addField(form, tr("Asked for: width"), "brief", "width");
  addField(form, tr("height"), "brief", "height");
  addField(form, tr("depth"), "brief", "depth");
  addField(form, tr("within"), "brief", "tolerance");
  addField(form, tr("Finish: coats"), "finish", "coats");
  addField(form, tr("m² a litre"), "finish", "area_per_litre");
  addField(form, tr("price a litre"), "finish", "price");
  all->addLayout(form);
  auto* heading = new QLabel(tr("Hardware"));
  heading->setProperty("role", "heading");
  all->addWidget(heading);
  hardware_ = new QTableWidget;
  hardware_->setObjectName("hardware");
  hardware_->setColumnCount(4);
  hardware_->setHorizontalHeaderLabels({tr("Item"), tr("Count"), tr("Price"), tr("Note")});
  hardware_->verticalHeader()->hide();
  hardware_->horizontalHeader()->setStretchLastSection(true);
  hardware_->setMinimumHeight(fontMetrics().height() * 7);
  all->addWidget(hardware_, 1);
  auto* row = new QHBoxLayout;
  newItem_ = new QLineEdit;
  newItem_->setObjectName("newHardware");
  newItem_->setPlaceholderText(tr("another item"));
  auto* add = new QPushButton(tr("Add"));
  auto* drop = new QPushButton(tr("Take out"));
  row->addWidget(newItem_, 1);
  row->addWidget(add);
  row->addWidget(drop);
  all->addLayout(row);
  wrong_ = new QLabel;
  wrong_->setObjectName("pieceWrong");
  wrong_->setWordWrap(true);
  all->addWidget(wrong_);
  setWidget(page);
  connect(hardware_, &QTableWidget::cellChanged, this, &PiecePage::takeCell);
  connect(newItem_, &QLineEdit::returnPressed, this, &PiecePage::addItem);
  connect(add, &QPushButton::clicked, this, &PiecePage::addItem);
  connect(drop, &QPushButton::clicked, this, &PiecePage::dropItem);
  connect(&document_, &BenchDocument::opened, this, &PiecePage::refresh);
  connect(&document_, &BenchDocument::numbersChanged, this, &PiecePage::refresh);
  refresh();
}

void PiecePage::addField(QFormLayout* form, const QString& words, const char* section,
                         const char* key) {
  auto* line = new QLineEdit;
  line->setObjectName(QString("piece_%1_%2").arg(section, key));
  if (*section != '\0') completeNames(line, document_);
  form->addRow(words, line);
  fields_.push_back({section, key, line});
  const std::size_t index = fields_.size() - 1;
  connect(line, &QLineEdit::editingFinished, this, [this, index] { take(fields_[index]); });
}

void PiecePage::refresh() {
  setEnabled(document_.isOpen());
  if (!document_.isOpen()) return;
  filling_ = true;
  const joinery::ModelFile& file = document_.file();
  for (const Field& field : fields_) {
    const std::string text = field.section.empty()
                                 ? document_.model().name
                                 : joinery::pieceText(file, field.section, field.key);
    if (!field.line->hasFocus() || !field.line->isModified()) {
      field.line->setText(QString::fromStdString(text));
    }
  }
  const auto names = joinery::hardwareNames(file);
  hardware_->setRowCount(static_cast<int>(names.size()));
  for (int i = 0; i < hardware_->rowCount(); ++i) {
    const std::string& name = names[static_cast<std::size_t>(i)];
    auto* item = new QTableWidgetItem(QString::fromStdString(name));
    item->setFlags(item->flags() & ~Qt::ItemIsEditable);
    hardware_->setItem(i, 0, item);
    for (std::size_t k = 0; k < kKeys.size(); ++k) {
      hardware_->setItem(i, static_cast<int>(k) + 1,
                         new QTableWidgetItem(
                             QString::fromStdString(joinery::hardwareText(file, name, kKeys[k]))));
    }
  }
  filling_ = false;
}

void PiecePage::take(const Field& field) {
  if (!document_.isOpen() || !field.line->isModified()) return;
  const std::string text = field.line->text().trimmed().toStdString();
  field.line->setModified(false);
  end(document_.apply(tr("piece changed"), [&](joinery::ModelFile& file) {
    return field.section.empty() ? file.setTitle(text)
                                 : joinery::setPieceText(file, field.section, field.key, text);
  }));
}

void PiecePage::takeCell(int row, int column) {
  if (filling_ || column < 1) return;
  const std::string item = hardware_->item(row, 0)->text().toStdString();
  const std::string text = hardware_->item(row, column)->text().toStdString();
  end(document_.apply(tr("hardware changed"), [&](joinery::ModelFile& file) {
    return joinery::setHardware(file, item, kKeys[static_cast<std::size_t>(column - 1)], text);
  }));
}

void PiecePage::addItem() {
  const std::string item = newItem_->text().trimmed().toStdString();
  const auto done = document_.apply(tr("hardware added"), [&](joinery::ModelFile& file) {
    return joinery::addHardware(file, item);
  });
  if (done) newItem_->clear();
  end(done);
}

void PiecePage::dropItem() {
  const int row = hardware_->currentRow();
  if (row < 0) return;
  const std::string item = hardware_->item(row, 0)->text().toStdString();
  end(document_.apply(tr("hardware taken out"), [&](joinery::ModelFile& file) {
    return joinery::eraseHardware(file, item);
  }));
}

void PiecePage::end(const Result<void>& done) {
  wrong_->setStyleSheet(QString("color: %1;").arg(colourOf(joinery::Severity::error).name()));
  wrong_->setText(done ? QString() : QString::fromStdString(done.error().line()));
  // What was refused stays as it was typed, to be put right.
  if (done) Q_EMIT taken();
}

}  // namespace dryfit::viewer

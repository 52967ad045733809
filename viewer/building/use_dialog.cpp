#include "viewer/building/use_dialog.h"

#include <QDialogButtonBox>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>
#include <algorithm>
#include <utility>

#include "joinery/file/assembly_edits.h"
#include "viewer/building/name_completer.h"
#include "viewer/look/look.h"
#include "viewer/look/words.h"

namespace dryfit::viewer {

UseDialog::UseDialog(BenchDocument& document, std::string use, QWidget* parent)
    : QDialog(parent), document_(document), use_(std::move(use)) {
  setObjectName("useDialog");
  setWindowTitle(tr("Numbers of %1").arg(spaced(use_)));
  auto* grid = new QGridLayout;
  const auto values = joinery::valuesOf(document_.file(), use_);
  int row = 0;
  for (const joinery::UseValue& value : values ? *values : std::vector<joinery::UseValue>{}) {
    auto* line = new QLineEdit;
    line->setObjectName("use_" + QString::fromStdString(value.name));
    line->setPlaceholderText(tr("%1 as described").arg(QString::fromStdString(value.other)));
    line->setReadOnly(value.each);
    if (value.each) line->setPlaceholderText(tr("each copy has its own"));
    completeNames(line, document_);
    auto* wrong = new QLabel;
    wrong->setObjectName("useWrong_" + QString::fromStdString(value.name));
    wrong->setWordWrap(true);
    wrong->setStyleSheet(QString("color: %1;").arg(colourOf(joinery::Severity::error).name()));
    grid->addWidget(new QLabel(spaced(value.name)), row, 0);
    grid->addWidget(line, row, 1);
    grid->addWidget(wrong, row++, 2);
    const std::size_t index = fields_.size();
    fields_.push_back({value.name, line, wrong});
    connect(line, &QLineEdit::editingFinished, this, [this, index] { take(fields_[index]); });
  }
  grid->setColumnStretch(1, 1);
  grid->setColumnStretch(2, 1);
  auto* hint = new QLabel(fields_.empty()
                              ? tr("Its description has no numbers with names.")
                              : tr("A number here is that of %1 alone; an empty field leaves it to "
                                   "the description, for all that are made by it.")
                                    .arg(spaced(use_)));
  hint->setProperty("role", "aside");
  hint->setWordWrap(true);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close);
  auto* all = new QVBoxLayout(this);
  all->addWidget(hint);
  all->addLayout(grid);
  all->addWidget(buttons);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  connect(&document_, &BenchDocument::opened, this, &QDialog::reject);
  connect(&document_, &BenchDocument::numbersChanged, this, &UseDialog::refresh);
  resize(fontMetrics().averageCharWidth() * 80, sizeHint().height());
  refresh();
}

void UseDialog::refresh() {
  const auto values = joinery::valuesOf(document_.file(), use_);
  if (!values) return reject();
  for (const Field& field : fields_) {
    if (field.line->hasFocus() && field.line->isModified()) continue;
    const auto own = std::ranges::find(*values, field.value, &joinery::UseValue::name);
    field.line->setText(own == values->end() ? QString() : QString::fromStdString(own->own));
  }
}

void UseDialog::take(const Field& field) {
  if (!field.line->isModified() || field.line->isReadOnly()) return;
  const std::string text = field.line->text().toStdString();
  const auto done = document_.apply(tr("number of a sub-assembly"), [&](joinery::ModelFile& file) {
    return joinery::setUseValue(file, use_, field.value, text);
  });
  field.line->setModified(!done);
  field.line->setStyleSheet(done ? QString()
                                 : QString("background: %1;").arg(colour::refused.name()));
  field.wrong->setText(done ? QString() : QString::fromStdString(done.error().line()));
}

}  // namespace dryfit::viewer

#include "viewer/building/repeat_dialog.h"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include "viewer/building/name_completer.h"
#include "viewer/look/look.h"

namespace dryfit::viewer {

RepeatDialog::RepeatDialog(BenchDocument& document, const std::string& part, QWidget* parent)
    : QDialog(parent), document_(document), part_(part) {
  setObjectName("repeatDialog");
  setWindowTitle(tr("Repeat a part"));
  way_ = new QComboBox;
  way_->setObjectName("repeatWay");
  way_->addItems({tr("spread evenly between two faces"), tr("with its mirror image"), tr("alone")});
  along_ = new QComboBox;
  along_->setObjectName("repeatAlong");
  along_->addItems({tr("x, left to right"), tr("y, front to back"), tr("z, bottom to top")});
  along_->setCurrentIndex(2);
  const auto line = [this](const char* name, const QString& hint) {
    auto* entry = new QLineEdit;
    entry->setObjectName(name);
    entry->setPlaceholderText(hint);
    completeNames(entry, document_);
    connect(entry, &QLineEdit::textChanged, this, &RepeatDialog::tryIt);
    return entry;
  };
  count_ = line("repeatCount", tr("3, or a dimension such as shelves"));
  from_ = line("repeatFrom", tr("bottom.top"));
  to_ = line("repeatTo", tr("top.bottom"));
  plane_ = line("repeatPlane", tr("width / 2"));
  wrong_ = new QLabel;
  wrong_->setObjectName("repeatWrong");
  wrong_->setWordWrap(true);
  wrong_->setStyleSheet(QString("color: %1;").arg(colourOf(joinery::Severity::error).name()));
  auto* form = new QFormLayout;
  form->addRow(tr("How"), way_);
  form->addRow(tr("Along"), along_);
  form->addRow(tr("How often"), count_);
  form->addRow(tr("From"), from_);
  form->addRow(tr("To"), to_);
  form->addRow(tr("About"), plane_);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel);
  take_ = buttons->addButton(tr("Repeat it"), QDialogButtonBox::AcceptRole);
  auto* all = new QVBoxLayout(this);
  all->addLayout(form);
  all->addWidget(wrong_);
  all->addWidget(buttons);
  connect(way_, &QComboBox::currentIndexChanged, this, &RepeatDialog::tryIt);
  connect(along_, &QComboBox::currentIndexChanged, this, &RepeatDialog::tryIt);
  connect(buttons, &QDialogButtonBox::accepted, this, &RepeatDialog::take);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  resize(520, 320);
  tryIt();
}

joinery::NewRepeat RepeatDialog::repeat() const {
  joinery::NewRepeat repeat;
  repeat.along = std::string(1, static_cast<char>('x' + along_->currentIndex()));
  if (way_->currentIndex() == spread) {
    repeat.count = count_->text().toStdString();
    repeat.from = from_->text().toStdString();
    repeat.to = to_->text().toStdString();
  } else if (way_->currentIndex() == mirrored) {
    repeat.plane = plane_->text().toStdString();
  }
  return repeat;
}

void RepeatDialog::tryIt() {
  if (take_ == nullptr) return;  // it is still being put together
  const int way = way_->currentIndex();
  for (QLineEdit* line : {count_, from_, to_}) line->setEnabled(way == spread);
  plane_->setEnabled(way == mirrored);
  along_->setEnabled(way != alone);
  const joinery::NewRepeat wish = repeat();
  const bool whole = way == alone || (way == mirrored ? !wish.plane.empty()
                                                      : !wish.count.empty() && !wish.from.empty() &&
                                                            !wish.to.empty());
  wrong_->clear();
  take_->setEnabled(false);
  if (!whole) return;
  const auto tried = document_.tryEdit(
      [&](joinery::ModelFile& file) { return joinery::repeatPart(file, part_, wish); });
  if (!tried) wrong_->setText(QString::fromStdString(tried.error().line()));
  take_->setEnabled(tried.has_value());
}

void RepeatDialog::take() {
  const auto edit = [part = part_, wish = repeat()](joinery::ModelFile& file) {
    return joinery::repeatPart(file, part, wish);
  };
  const auto done = document_.apply(tr("repeat of a part"), edit);
  if (done) return accept();
  wrong_->setText(QString::fromStdString(done.error().line()));
}

}  // namespace dryfit::viewer

#include "viewer/pages/picture_dialog.h"

#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QPushButton>
#include <QSpinBox>

namespace dryfit::viewer {

PictureDialog::PictureDialog(QSize like, QWidget* parent) : QDialog(parent) {
  constexpr int kLeast = 64, kMost = 8192;  // pixels; larger ones few drivers draw
  setObjectName("pictureDialog");
  setWindowTitle(tr("Picture of the view"));
  const auto number = [&](const char* name, int value) {
    auto* box = new QSpinBox;
    box->setObjectName(name);
    box->setRange(kLeast, kMost);
    box->setValue(value);
    box->setSuffix(tr(" pixels"));
    return box;
  };
  width_ = number("pictureWidth", like.width());
  height_ = number("pictureHeight", like.height());
  auto* form = new QFormLayout(this);
  form->addRow(tr("Width"), width_);
  form->addRow(tr("Height"), height_);
  auto* hint =
      new QLabel(tr("A name that ends in .svg gives lines that print sharp at any size, "
                    "without the cut; .png gives the view as it is."));
  hint->setProperty("role", "aside");
  hint->setWordWrap(true);
  form->addRow(hint);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel);
  buttons->addButton(tr("Choose a file…"), QDialogButtonBox::AcceptRole);
  form->addRow(buttons);
  connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
}

QSize PictureDialog::size() const {
  return {width_->value(), height_->value()};
}

}  // namespace dryfit::viewer

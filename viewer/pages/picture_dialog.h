#pragma once

#include <QDialog>
#include <QSize>

class QSpinBox;

namespace dryfit::viewer {

/// Asks how large a picture is to be.
class PictureDialog : public QDialog {
  Q_OBJECT
 public:
  PictureDialog(QSize like, QWidget* parent);
  [[nodiscard]] QSize size() const;

 private:
  QSpinBox *width_ = nullptr, *height_ = nullptr;
};

}  // namespace dryfit::viewer

#pragma once

#include <QDialog>

class QLabel;
class QLineEdit;
class QPushButton;

namespace dryfit::viewer {

/// Asks for the folder of a bench packet, by its whole name; it is made where it is not there.
class PacketDialog : public QDialog {
  Q_OBJECT
 public:
  PacketDialog(const QString& folder, QWidget* parent);

  [[nodiscard]] QString folder() const;

 private:
  void askForPlace();
  void showOutcome();

  QLineEdit* folder_ = nullptr;
  QLabel* outcome_ = nullptr;
  QPushButton* write_ = nullptr;
};

}  // namespace dryfit::viewer

#pragma once

#include <QWidget>

#include "joinery/trade/machines.h"

class QComboBox;
class QLineEdit;

namespace dryfit::viewer {

/// A choice of the machine that cuts boards, or sheets, and its kerf: the usual one, until another
/// is typed.
class SawChoice : public QWidget {
  Q_OBJECT
 public:
  /// `words` stand before it, with its key. A router is offered for sheets only.
  SawChoice(const QString& words, bool forSheets, QWidget* parent = nullptr);

  [[nodiscard]] joinery::Machine machine() const;
  [[nodiscard]] QString kerfText() const;
  void typeKerfAgain();

 private:
  void takeUsualKerf();

  QComboBox* machine_;
  QLineEdit* kerf_;
};

/// A line for a short length, as the window shows them.
[[nodiscard]] QLineEdit* makeShortLine(double mm, const QString& tip);

}  // namespace dryfit::viewer

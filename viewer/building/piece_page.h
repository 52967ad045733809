#pragma once

#include <QScrollArea>
#include <vector>

#include "viewer/document/bench_document.h"

class QFormLayout;
class QLabel;
class QLineEdit;
class QTableWidget;

namespace dryfit::viewer {

/// All that is written of the piece as a whole: its name, what was asked for, its finish, what is
/// bought for it; changed in place.
class PiecePage : public QScrollArea {
  Q_OBJECT
 public:
  explicit PiecePage(BenchDocument& document, QWidget* parent = nullptr);

 Q_SIGNALS:
  void taken();

 private:
  struct Field {
    std::string section, key;
    QLineEdit* line;
  };
  void addField(QFormLayout* form, const QString& words, const char* section, const char* key);
  void refresh();
  void take(const Field& field);
  void takeCell(int row, int column);
  void addItem();
  void dropItem();
  /// Tells what was refused; nothing where it was taken.
  void end(const Result<void>& done);

  BenchDocument& document_;
  std::vector<Field> fields_;
  QTableWidget* hardware_ = nullptr;
  QLineEdit* newItem_ = nullptr;
  QLabel* wrong_ = nullptr;
  bool filling_ = false;
};

}  // namespace dryfit::viewer

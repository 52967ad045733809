#pragma once

#include <QDialog>
#include <string>
#include <vector>

#include "joinery/file/part_edits.h"
#include "viewer/document/bench_document.h"

class QComboBox;
class QGridLayout;
class QLabel;
class QLineEdit;
class QPushButton;

namespace dryfit::viewer {

/// What a new part between two parts begins as: from face to face where they look at each other,
/// flush with the first one's top and front.
[[nodiscard]] joinery::NewPart partBetween(const joinery::ModelFile& file,
                                           const joinery::Piece& piece, joinery::PartId a,
                                           joinery::PartId b);

/// A part that is put between faces. What is wrong is told as it is typed.
class NewPartDialog : public QDialog {
  Q_OBJECT
 public:
  NewPartDialog(BenchDocument& document, const joinery::NewPart& begun, QWidget* parent);

 private:
  struct Row {
    QComboBox* along;
    QLineEdit *from, *to, *size, *centre;
  };
  [[nodiscard]] Row addRow(QGridLayout* grid, int row, const QString& words, const char* name,
                           const joinery::NewSpan& span);
  [[nodiscard]] joinery::NewPart part() const;
  [[nodiscard]] static joinery::NewSpan spanOf(const Row& row);
  void tryIt();
  void make();

  BenchDocument& document_;
  QLineEdit* name_ = nullptr;
  QComboBox* material_ = nullptr;
  Row length_{}, width_{}, thickness_{};
  QLabel* wrong_ = nullptr;
  QPushButton* make_ = nullptr;
};

}  // namespace dryfit::viewer

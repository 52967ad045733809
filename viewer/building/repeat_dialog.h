#pragma once

#include <QDialog>
#include <string>

#include "joinery/file/part_edits.h"
#include "viewer/document/bench_document.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;

namespace dryfit::viewer {

/// How often a part is there: spread evenly between two faces, mirrored, or alone.
class RepeatDialog : public QDialog {
  Q_OBJECT
 public:
  RepeatDialog(BenchDocument& document, const std::string& part, QWidget* parent);

 private:
  enum Way { spread, mirrored, alone };
  [[nodiscard]] joinery::NewRepeat repeat() const;
  void tryIt();
  void take();

  BenchDocument& document_;
  std::string part_;
  QComboBox *way_ = nullptr, *along_ = nullptr;
  QLineEdit *count_ = nullptr, *from_ = nullptr, *to_ = nullptr, *plane_ = nullptr;
  QLabel* wrong_ = nullptr;
  QPushButton* take_ = nullptr;
};

}  // namespace dryfit::viewer

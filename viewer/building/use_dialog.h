#pragma once

#include <QDialog>
#include <string>
#include <vector>

#include "viewer/document/bench_document.h"

class QLabel;
class QLineEdit;

namespace dryfit::viewer {

/// The numbers of a sub-assembly where it stands: each is typed over in place, and what cannot be
/// says so beside its field and changes nothing.
class UseDialog : public QDialog {
  Q_OBJECT
 public:
  UseDialog(BenchDocument& document, std::string use, QWidget* parent);

 private:
  struct Field {
    std::string value;
    QLineEdit* line;
    QLabel* wrong;
  };
  void take(const Field& field);
  void refresh();

  BenchDocument& document_;
  std::string use_;
  std::vector<Field> fields_;
};

}  // namespace dryfit::viewer

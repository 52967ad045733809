#pragma once

#include <QWidget>
#include <functional>
#include <string>
#include <vector>

#include "viewer/document/bench_document.h"

class QComboBox;
class QFormLayout;
class QLabel;
class QLineEdit;

namespace dryfit::viewer {

/// All that the author of a part has written of it, to be changed in place. What is wrong with an
/// entry is told below it, and the piece stays as it was.
class PartPage : public QWidget {
  Q_OBJECT
 public:
  explicit PartPage(BenchDocument& document, QWidget* parent = nullptr);

  /// Shows this part; none clears the page.
  void show(const std::vector<joinery::PartId>& parts);

 Q_SIGNALS:
  void taken();

 private:
  /// One entry: the name of its field, and how its text gets into the file.
  struct Field {
    QLineEdit* line = nullptr;
    std::function<std::string()> written;
    std::function<BenchDocument::Edit(const std::string& text)> edit;
  };
  void addText(QFormLayout* form, const QString& words, const std::string& key);
  void addSpan(QFormLayout* form, const QString& words, const std::string& span);
  QLineEdit* addLine(const QString& name, std::function<std::string()> written,
                     std::function<BenchDocument::Edit(const std::string& text)> edit,
                     bool number = false);
  void refresh();
  void take(const Field& field);
  void takeMaterial();
  void fail(const QString& line);

  BenchDocument& document_;
  std::string part_;  ///< its name; empty: none
  std::vector<Field> fields_;
  QLabel *title_ = nullptr, *shared_ = nullptr, *wrong_ = nullptr;
  QWidget* form_ = nullptr;
  QComboBox* material_ = nullptr;
};

}  // namespace dryfit::viewer

#pragma once

#include <QWidget>
#include <string>
#include <vector>

#include "joinery/joints/joint_kind.h"
#include "viewer/building/number_field.h"
#include "viewer/document/bench_document.h"

class QComboBox;
class QFormLayout;
class QLabel;
class QPushButton;

namespace dryfit::viewer {

/// All that the author of a joint has written of it, to be changed in place: beside what is left to
/// the rules stands what they give. What is wrong with an entry is told below its field, and the
/// piece stays as it was.
class JointPage : public QWidget {
  Q_OBJECT
 public:
  explicit JointPage(BenchDocument& document, QWidget* parent = nullptr);

  /// Shows the joint of this name; none clears the page.
  void show(const std::string& joint);
  [[nodiscard]] const std::string& joint() const { return joint_; }

 Q_SIGNALS:
  void told(const QString& line);

 private:
  /// One entry of the joint: its key in the model file, its field, and what is wrong with it.
  struct Field {
    std::string key;
    NumberField* line = nullptr;
    QComboBox* words = nullptr;  ///< in place of the line, where only words may stand
    QLabel *aside = nullptr, *wrong = nullptr;
  };
  void refresh();
  /// The fields that a kind has numbers for.
  void build(const joinery::JointKind* kind);
  void addField(const std::string& key, const joinery::Parameter* parameter);
  void fill(const Field& field, const joinery::Joint& joint);
  [[nodiscard]] QString ruleWords(const std::string& key) const;
  void take(const Field& field, const std::string& text);
  void takeKind();
  void takeName();
  void swap();
  void fail(QLabel* below, const Result<void>& done);

  BenchDocument& document_;
  std::string joint_;  ///< its name; empty: none
  const joinery::JointKind* built_ = nullptr;
  std::vector<Field> fields_;
  QLabel *title_ = nullptr, *shared_ = nullptr, *mates_ = nullptr, *wrong_ = nullptr;
  QWidget *body_ = nullptr, *numbers_ = nullptr;
  QFormLayout* rows_ = nullptr;
  QComboBox* kind_ = nullptr;
  QLineEdit* name_ = nullptr;
  QPushButton* swap_ = nullptr;
};

}  // namespace dryfit::viewer

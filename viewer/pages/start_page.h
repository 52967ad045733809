#pragma once

#include <QWidget>
#include <filesystem>
#include <memory>
#include <optional>
#include <vector>

#include "joinery/file/questions.h"
#include "joinery/file/starters.h"

class QComboBox;
class QFormLayout;
class QLabel;
class QListWidget;
class QListWidgetItem;
class QPushButton;

namespace dryfit::viewer {

class BenchDocument;
class View3d;

/// Where a piece is begun: what can be begun, its questions beside a picture that follows each
/// answer, what the dry fit says of it; pieces opened lately, and the examples.
class StartPage : public QWidget {
  Q_OBJECT
 public:
  explicit StartPage(QWidget* parent = nullptr);
  ~StartPage() override;

  /// Reads the lists anew: starters may have been added, pieces opened. `mayReturn`: there is a
  /// piece on the bench to go back to.
  void refresh(bool mayReturn);
  /// The piece as its answers stand; null where none is chosen.
  [[nodiscard]] const BenchDocument* piece() const { return piece_.get(); }

 Q_SIGNALS:
  void begun(const dryfit::joinery::ModelFile& file);
  void fileAsked(const QString& path);
  void openAsked();
  void returnAsked();

 private:
  void makeLists();
  void makeQuestions();
  /// Tells of a starter that is no model yet, without offering it.
  void addUnreadable(const std::filesystem::path& path, const Error& error);
  void takeItem(const QListWidgetItem* item);
  void askQuestions();
  void addQuestion(const joinery::AskedQuestion& question);
  /// Takes all answers as they stand, or says what is wrong with one.
  void takeAnswers();
  [[nodiscard]] joinery::Unit unit() const;
  void tellFindings();
  void fail(const QString& line);

  /// One question and what holds its answer.
  struct Field {
    joinery::AskedQuestion question;
    QWidget* entry = nullptr;
  };
  [[nodiscard]] static QString answerIn(const Field& field);

  QListWidget *starters_ = nullptr, *files_ = nullptr;
  QLabel *title_ = nullptr, *note_ = nullptr, *wrong_ = nullptr, *findings_ = nullptr;
  QComboBox* units_ = nullptr;
  QWidget* form_ = nullptr;
  QFormLayout* rows_ = nullptr;
  QPushButton *begin_ = nullptr, *return_ = nullptr;
  View3d* picture_ = nullptr;
  std::unique_ptr<BenchDocument> piece_;
  std::optional<joinery::ModelFile> starter_;
  std::vector<Field> fields_;
};

}  // namespace dryfit::viewer

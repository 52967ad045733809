#pragma once

#include <QWidget>
#include <filesystem>
#include <optional>

class QLabel;
class QLineEdit;
class QProgressBar;
class QPushButton;
class QTableView;

namespace dryfit::viewer {

class BenchDocument;
class SawChoice;
class StockDesk;
class StockTable;

/// The stock at hand, what the machines ask for, and the button that lays the piece out on it.
class StockPage : public QWidget {
  Q_OBJECT
 public:
  StockPage(StockDesk& desk, BenchDocument& document, QWidget* parent = nullptr);
  ~StockPage() override;

  /// Opens a stock list; what is wrong with it is told by `refused`. False when not opened.
  bool openList(const std::filesystem::path& path);

  /// Asks about unsaved changes of the list; true when it is fine to go on.
  [[nodiscard]] bool mayLeave();

 Q_SIGNALS:
  void refused(const QString& line);
  void told(const QString& line);

 private:
  [[nodiscard]] QWidget* makeHead();
  [[nodiscard]] QWidget* makeFoot();
  void askAndOpen();
  void askAndSave();
  bool save(const std::filesystem::path& path);
  void layOutOrStop();
  [[nodiscard]] std::optional<double> readLength(const QString& text, double most);
  [[nodiscard]] bool takeSettings();
  void refresh();

  StockDesk& desk_;
  BenchDocument& document_;
  StockTable* table_;
  QTableView* view_;
  QLabel* file_ = nullptr;
  QPushButton *save_ = nullptr, *go_ = nullptr;
  SawChoice *boardSaw_ = nullptr, *sheetSaw_ = nullptr;
  QLineEdit* trim_ = nullptr;
  QProgressBar* bar_ = nullptr;
};

}  // namespace dryfit::viewer

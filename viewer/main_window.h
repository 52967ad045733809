#pragma once

#include <QMainWindow>
#include <filesystem>

#include "viewer/bench_document.h"

class QAction;
class QActionGroup;
class QLabel;
class QTableView;

namespace dryfit::viewer {

class DimensionTable;
class FindingTable;
class HeadedPanel;
class JointTree;
class MeasuredTable;
class PartTree;
class View3d;

/// The window of the bench: the piece, what the dry fit found, and the lists of parts, joints,
/// dimensions and measured sizes, tied together.
class MainWindow : public QMainWindow {
  Q_OBJECT
 public:
  explicit MainWindow(QWidget* parent = nullptr);
  ~MainWindow() override;

  /// Opens a piece; what is wrong with it is told in the status bar. False when not opened.
  bool openFile(const std::filesystem::path& path);

  [[nodiscard]] BenchDocument& document() { return document_; }
  [[nodiscard]] View3d& view() { return *view_; }

 protected:
  void closeEvent(QCloseEvent* event) override;

 private:
  void makePanels();
  [[nodiscard]] QWidget* makeDimensionPage();
  void makeActions();
  void makeToolBar();
  void tieTogether();

  void askAndOpen();
  bool save();
  bool saveAs();
  /// Asks about unsaved changes; true when it is fine to go on.
  bool mayLeave();

  void choose(const std::vector<joinery::PartId>& parts);
  void showFinding(int row);
  void showWhole();
  void showNumbers();
  void showVerdict();
  void tell(const QString& line);
  void warn(const QString& line);
  [[nodiscard]] QString nameOfFile() const;

  BenchDocument document_;
  View3d* view_ = nullptr;
  PartTree* parts_ = nullptr;
  JointTree* joints_ = nullptr;
  DimensionTable* dimensions_ = nullptr;
  MeasuredTable* measured_ = nullptr;
  FindingTable* findings_ = nullptr;
  QTableView* findingView_ = nullptr;
  QTableView* dimensionView_ = nullptr;
  QTableView* measuredView_ = nullptr;
  HeadedPanel* findingPanel_ = nullptr;
  QLabel* message_ = nullptr;
  QLabel* state_ = nullptr;
  QActionGroup* basisGroup_ = nullptr;
  QActionGroup* unitGroup_ = nullptr;
  QAction *save_ = nullptr, *saveAs_ = nullptr;
};

}  // namespace dryfit::viewer

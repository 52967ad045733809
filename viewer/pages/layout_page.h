#pragma once

#include <QWidget>
#include <memory>
#include <vector>

#include "export/layout/layout_job.h"

class QLabel;
class QListWidget;

namespace dryfit::viewer {

class BenchDocument;
class LayoutPicture;
class StockDesk;

/// The latest layout: the boards and sheets used, one of them in a picture, and what did not fit.
/// Choosing a part here chooses it in the piece, and back.
class LayoutPage : public QWidget {
  Q_OBJECT
 public:
  LayoutPage(StockDesk& desk, BenchDocument& document, QWidget* parent = nullptr);

  /// Lets these parts stand out and shows the first board that one of them comes from.
  void choose(const std::vector<joinery::PartId>& parts);

 Q_SIGNALS:
  void partsChosen(const std::vector<dryfit::joinery::PartId>& parts);

 private:
  [[nodiscard]] QWidget* sums();
  void rebuild();
  void refreshWords();
  void showRow(int row);
  [[nodiscard]] bool holds(int row, const std::vector<joinery::PartId>& parts) const;

  StockDesk& desk_;
  QListWidget* list_;
  LayoutPicture* picture_;
  QLabel *words_, *lacking_;
  std::shared_ptr<const exporting::LayoutJob> job_;
};

}  // namespace dryfit::viewer

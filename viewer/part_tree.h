#pragma once

#include <QTreeWidget>
#include <vector>

#include "viewer/bench_document.h"

namespace dryfit::viewer {

/// Parts by group, with their sizes. Choosing rows chooses parts in the view, and back.
class PartTree : public QTreeWidget {
  Q_OBJECT
 public:
  enum Column { part, shoulder, overall, width, thickness, material, columns };
  explicit PartTree(BenchDocument& document, QWidget* parent = nullptr);

  /// Chooses the rows of these parts, without a signal.
  void choose(const std::vector<joinery::PartId>& parts);
  [[nodiscard]] std::vector<joinery::PartId> chosen() const;

 Q_SIGNALS:
  void partsChosen(const std::vector<dryfit::joinery::PartId>& parts);

 private:
  void rebuild();
  void refresh();

  BenchDocument& document_;
  std::vector<QTreeWidgetItem*> items_;  // index = PartId; owned by the tree
};

}  // namespace dryfit::viewer

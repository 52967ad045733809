#pragma once

#include <QTimer>
#include <QTreeWidget>
#include <optional>
#include <vector>

#include "viewer/document/bench_document.h"

class QMenu;

namespace dryfit::viewer {

/// Parts by group, with their sizes and how far they are made. Choosing rows chooses parts in the
/// view, and back. The menu of the chosen rows marks how far they are made.
class PartTree : public QTreeWidget {
  Q_OBJECT
 public:
  enum Column { part, shoulder, overall, width, thickness, material, made, columns };
  explicit PartTree(BenchDocument& document, QWidget* parent = nullptr);

  /// Chooses the rows of these parts, without a signal.
  void choose(const std::vector<joinery::PartId>& parts);
  [[nodiscard]] std::vector<joinery::PartId> chosen() const;
  /// Entries that mark the chosen parts.
  void addMarkActions(QMenu& menu);
  /// Marks the chosen parts as made so far, at the sizes measured (else drawn); none takes the
  /// marks back.
  void markChosen(std::optional<joinery::MarkState> state);

 Q_SIGNALS:
  void partsChosen(const std::vector<dryfit::joinery::PartId>& parts);
  void refused(const QString& line);
  void told(const QString& line);

 protected:
  void contextMenuEvent(QContextMenuEvent* event) override;

 private:
  void rebuild();
  void showHeads();
  void refresh();
  void fitColumns();
  [[nodiscard]] QString markedWords(const joinery::Piece& piece,
                                    const std::vector<joinery::PartId>& parts,
                                    std::optional<joinery::MarkState> state) const;

  BenchDocument& document_;
  QTimer widths_;  ///< runs out when the numbers have come to rest; columns are fitted then
  std::vector<QTreeWidgetItem*> items_;  // index = PartId; owned by the tree
};

}  // namespace dryfit::viewer

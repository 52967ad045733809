#pragma once

#include <QTreeWidget>

#include "viewer/document/bench_document.h"

namespace dryfit::viewer {

/// Joints with their numbers. A number that the joint's kind lets its author set can be typed over;
/// an empty entry gives it back to the rules.
class JointTree : public QTreeWidget {
  Q_OBJECT
 public:
  enum Column { joint, number, from, columns };
  explicit JointTree(BenchDocument& document, QWidget* parent = nullptr);
  /// Name of the joint in whose rows the choice is; empty without one.
  [[nodiscard]] std::string currentJoint() const;
  /// Makes the joint of this name the current one.
  void choose(const std::string& name);

 Q_SIGNALS:
  void partsChosen(const std::vector<dryfit::joinery::PartId>& parts);
  void jointChosen(const std::string& name);
  void refused(const QString& line);
  void taken();

 private:
  void rebuild();
  void refresh();
  void fillNumbers(QTreeWidgetItem* item, std::size_t index);
  void take(QTreeWidgetItem* item, const QString& text);
  [[nodiscard]] BenchDocument::Edit editOf(const QModelIndex& cell, const QString& text) const;

  BenchDocument& document_;
};

}  // namespace dryfit::viewer

#pragma once

#include <QWidget>

#include "viewer/document/bench_document.h"

class QLabel;
class QTableWidget;
class QTableWidgetItem;

namespace dryfit::viewer {

/// The materials of the piece: what they are of and how thick, to be typed over; new ones are added
/// below.
class MaterialPage : public QWidget {
  Q_OBJECT
 public:
  enum Column { name, kind, species, thickness, columns };
  explicit MaterialPage(BenchDocument& document, QWidget* parent = nullptr);

 Q_SIGNALS:
  void refused(const QString& line);
  void taken();

 private:
  void refresh();
  void take(const QTableWidgetItem* item);
  void add(const std::string& newKind);

  BenchDocument& document_;
  QTableWidget* table_ = nullptr;
};

}  // namespace dryfit::viewer

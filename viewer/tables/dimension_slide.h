#pragma once

#include <QWidget>

#include "viewer/document/bench_document.h"

class QLabel;
class QSlider;

namespace dryfit::viewer {

/// A slide for the dimension that is chosen: dragging it changes the number, and the piece follows
/// while it is dragged. One drag is one step of undo. Idle for dimensions that are worked out from
/// others, or that are no lengths.
class DimensionSlide : public QWidget {
  Q_OBJECT
 public:
  explicit DimensionSlide(BenchDocument& document, QWidget* parent = nullptr);

  /// Takes up the model's dimension with this index; -1 for none.
  void take(int dimension);

 Q_SIGNALS:
  void refused(const QString& line);
  void taken();

 private:
  void slideTo(int steps);
  void letGo();
  void refresh();
  [[nodiscard]] const joinery::Dimension* dimension() const;

  BenchDocument& document_;
  QLabel* words_;
  QSlider* slide_;
  int dimension_ = -1;
  int stroke_ = 0;
};

}  // namespace dryfit::viewer

#pragma once

#include <QWidget>
#include <optional>

#include "viewer/document/bench_document.h"
#include "viewer/view/view3d.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QSlider;
class QToolButton;

namespace dryfit::viewer {

/// Under the view: a cut through the piece that can be moved, and how far it is opened out.
class SightBar : public QWidget {
  Q_OBJECT
 public:
  SightBar(BenchDocument& document, View3d& view, QWidget* parent = nullptr);

  /// Cuts across an axis, through the middle; none takes the cut away.
  void cutAcross(std::optional<joinery::Axis> axis);
  /// Moves the cut by so many of its steps.
  void moveCut(int steps);
  void turnCut();
  /// Opens out further, or less.
  void open(int steps);
  void close();

 Q_SIGNALS:
  void refused(const QString& line);

 private:
  void reset();
  void showCut();
  void takeText();
  void slide(int value);
  [[nodiscard]] std::pair<double, double> reach(joinery::Axis axis) const;

  BenchDocument& document_;
  View3d& view_;
  std::optional<Cut> cut_;
  QComboBox* across_ = nullptr;
  QSlider* place_ = nullptr;
  QLineEdit* at_ = nullptr;
  QToolButton* side_ = nullptr;
  QSlider* opened_ = nullptr;
};

}  // namespace dryfit::viewer

#pragma once

#include <QSvgRenderer>
#include <QWidget>
#include <optional>

#include "joinery/base/ids.h"
#include "viewer/document/draughtsman.h"

namespace dryfit::viewer {

class BenchDocument;

/// The drawing of the chosen part, or of the whole piece, as the bench will get it. It follows the
/// piece while it is in sight. The wheel (or plus and minus) zooms, a drag shifts, a double click
/// (or Home) shows the whole sheet.
class DrawingPage : public QWidget {
  Q_OBJECT
 public:
  explicit DrawingPage(BenchDocument& document, QWidget* parent = nullptr);

  /// The part to draw; none for the whole piece.
  void choose(std::optional<joinery::PartId> part);
  /// True when the sheet shows the piece as it is.
  [[nodiscard]] bool isUpToDate() const { return !waiting_ && picture_.isValid(); }
  /// How many times larger it is than when the whole sheet is seen.
  [[nodiscard]] double enlarged() const { return zoom_; }

 protected:
  void paintEvent(QPaintEvent* event) override;
  void showEvent(QShowEvent* event) override;
  void wheelEvent(QWheelEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseDoubleClickEvent(QMouseEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  void wish();
  /// The sheet on the screen.
  [[nodiscard]] QRectF sheetPlace() const;
  void zoom(QPointF about, double notches);
  void shift(QPointF by);
  void showWholeSheet();

  BenchDocument& document_;
  Draughtsman draughtsman_;
  QSvgRenderer picture_;
  std::optional<joinery::PartId> part_;
  double zoom_ = 1;  ///< 1: the whole sheet
  QPointF shift_;    ///< of the sheet's middle from the page's, pixels
  QPointF last_;     ///< of the pointer
  bool waiting_ = false;
  QString trouble_;
};

}  // namespace dryfit::viewer

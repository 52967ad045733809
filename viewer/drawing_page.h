#pragma once

#include <QSvgRenderer>
#include <QWidget>
#include <optional>

#include "joinery/ids.h"
#include "viewer/draughtsman.h"

namespace dryfit::viewer {

class BenchDocument;

/// The drawing of the chosen part, or of the whole piece, as the bench will get it. It follows the
/// piece while it is in sight.
class DrawingPage : public QWidget {
  Q_OBJECT
 public:
  explicit DrawingPage(BenchDocument& document, QWidget* parent = nullptr);

  /// The part to draw; none for the whole piece.
  void choose(std::optional<joinery::PartId> part);
  /// True when the sheet shows the piece as it is.
  [[nodiscard]] bool isUpToDate() const { return !waiting_ && picture_.isValid(); }

 protected:
  void paintEvent(QPaintEvent* event) override;
  void showEvent(QShowEvent* event) override;

 private:
  void wish();

  BenchDocument& document_;
  Draughtsman draughtsman_;
  QSvgRenderer picture_;
  std::optional<joinery::PartId> part_;
  bool waiting_ = false;
  QString trouble_;
};

}  // namespace dryfit::viewer

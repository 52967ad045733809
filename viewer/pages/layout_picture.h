#pragma once

#include <QTransform>
#include <QWidget>
#include <memory>
#include <optional>
#include <vector>

#include "export/layout/layout_job.h"

namespace dryfit::viewer {

/// One board or sheet with the parts that are cut from it. A click on a part chooses it.
class LayoutPicture : public QWidget {
  Q_OBJECT
 public:
  explicit LayoutPicture(QWidget* parent = nullptr);

  /// Shows a board or sheet of a layout by its place in `layout.stock`; nothing when `job` is null.
  void show(std::shared_ptr<const exporting::LayoutJob> job, std::size_t stock);
  /// The parts that stand out.
  void choose(const std::vector<joinery::PartId>& parts);

  [[nodiscard]] QSize sizeHint() const override { return {520, 170}; }

 Q_SIGNALS:
  void partChosen(dryfit::joinery::PartId part);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  bool event(QEvent* event) override;

 private:
  [[nodiscard]] const joinery::StockLayout* shown() const;
  /// From mm on the board, y up, to pixels.
  [[nodiscard]] QTransform toPixels() const;
  [[nodiscard]] QRectF pixels(const joinery::FlatRect& rect) const;
  [[nodiscard]] const joinery::PlacedBlank* under(QPointF at) const;
  void paintWood(QPainter& painter) const;
  void paintBlank(QPainter& painter, const joinery::PlacedBlank& placed) const;

  std::shared_ptr<const exporting::LayoutJob> job_;
  std::size_t stock_ = 0;
  std::vector<joinery::PartId> chosen_;
};

}  // namespace dryfit::viewer

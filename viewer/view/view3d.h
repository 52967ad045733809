#pragma once

#include <QPoint>
#include <QTimer>
#include <QWidget>
#include <memory>
#include <optional>
#include <vector>

#include "joinery/piece/finding.h"
#include "viewer/view/assembled.h"

class TopoDS_Shape;

namespace dryfit::viewer {

enum class Side;

/// The piece in three dimensions, in a native X window that the geometry library draws into.
///
/// Left button drags turn, middle or right button drags shift, the wheel zooms about the pointer, a
/// left click chooses a part (with Ctrl one more), a double click brings a part into sight. With
/// the keyboard: arrows turn, with Shift they shift; plus and minus zoom. Where the display has no
/// graphics driver for it, a line says so in its place.
class View3d : public QWidget {
  Q_OBJECT
 public:
  explicit View3d(QWidget* parent = nullptr);
  ~View3d() override;

  void showPiece(std::shared_ptr<const Assembled> assembled);
  void clear();
  void choose(const std::vector<joinery::PartId>& parts);
  /// Sets the finding's parts off from the rest, marks its place and moves there. Null: all again.
  void bringOut(const joinery::Finding* finding);
  /// Takes these parts out of sight, and shows all others.
  void hide(const std::vector<joinery::PartId>& parts);
  [[nodiscard]] std::vector<joinery::PartId> hidden() const;
  void lookFrom(Side side);
  void fitAll();

  /// The shape drawn for a part; null shape where there is none.
  [[nodiscard]] TopoDS_Shape shapeOf(joinery::PartId part) const;
  [[nodiscard]] std::vector<joinery::PartId> chosen() const;

  /// Why there is no picture; empty where there is one.
  [[nodiscard]] QString trouble() const;
  /// None: the library draws. Without a picture, Qt paints the words that stand for it.
  [[nodiscard]] QPaintEngine* paintEngine() const override;
  [[nodiscard]] QSize sizeHint() const override { return {760, 560}; }

 Q_SIGNALS:
  void partsChosen(const std::vector<dryfit::joinery::PartId>& parts);
  void partPointedAt(std::optional<dryfit::joinery::PartId> part);

 protected:
  void showEvent(QShowEvent* event) override;
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void mouseDoubleClickEvent(QMouseEvent* event) override;
  void wheelEvent(QWheelEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void leaveEvent(QEvent* event) override;

 private:
  struct Impl;
  /// From here on there is no picture, but these words.
  void giveUp(const QString& why);
  /// Does what needs the graphics driver, which throws where it fails; gives up then.
  void draw(const std::function<void()>& work);
  [[nodiscard]] QPoint device(QPointF position) const;
  /// Paints at once without smooth edges, and once more with them when nothing has moved for a
  /// while.
  void drawQuickly();
  void orbit(QPoint by);
  void zoom(QPoint at, double notches);
  void point(QPoint at);
  void drawPointed();

  std::unique_ptr<Impl> impl_;
  QPoint last_, pressed_;
  bool dragged_ = false;
  bool fitted_ = false;
  QTimer rest_;  ///< runs while the picture is in motion
};

}  // namespace dryfit::viewer

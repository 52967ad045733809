#include "viewer/pages/drawing_page.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QWheelEvent>
#include <algorithm>
#include <cmath>

#include "viewer/document/bench_document.h"
#include "viewer/look/look.h"
#include "viewer/look/words.h"

namespace dryfit::viewer {
namespace {

constexpr double kZoomPerNotch = 1.2;
constexpr double kMostZoom = 12;
constexpr double kKeyShift = 60;  // pixels

}  // namespace

DrawingPage::DrawingPage(BenchDocument& document, QWidget* parent)
    : QWidget(parent), document_(document) {
  setObjectName("drawing");
  setFocusPolicy(Qt::StrongFocus);
  setToolTip(tr("Wheel: zoom; drag: move; double-click: whole sheet"));
  connect(&document_, &BenchDocument::assembledChanged, this, &DrawingPage::wish);
  connect(&document_, &BenchDocument::numbersChanged, this, &DrawingPage::wish);
  connect(&document_, &BenchDocument::opened, this, [this] {
    part_.reset();
    picture_.load(QByteArray());
    update();
  });
  connect(&draughtsman_, &Draughtsman::drawn, this, [this](const QByteArray& svg) {
    waiting_ = false;
    trouble_.clear();
    picture_.load(svg);
    update();
  });
  connect(&draughtsman_, &Draughtsman::failed, this, [this](const QString& line) {
    waiting_ = false;
    trouble_ = line;
    update();
  });
}

void DrawingPage::choose(std::optional<joinery::PartId> part) {
  if (part == part_) return;
  part_ = part;
  showWholeSheet();
  wish();
}

/// Asks for the sheet anew, unless nobody would see it.
void DrawingPage::wish() {
  const auto assembled = document_.assembled();
  if (!isVisible() || !assembled) return;
  const bool known = part_ && part_->index() < assembled->fit->piece.parts.size();
  waiting_ = true;
  draughtsman_.draw(assembled->fit, document_.unit(), known ? part_ : std::nullopt);
}

void DrawingPage::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  wish();
}

void DrawingPage::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.fillRect(rect(), colour::rule);
  if (!trouble_.isEmpty() || !picture_.isValid()) {
    painter.setPen(colour::ink);
    painter.drawText(rect().adjusted(12, 12, -12, -12), Qt::AlignCenter | Qt::TextWordWrap,
                     !document_.isOpen()  ? noPieceWords()
                     : trouble_.isEmpty() ? tr("Drawing…")
                                          : trouble_);
    return;
  }
  const QRectF page = sheetPlace();
  painter.fillRect(page, Qt::white);
  painter.setRenderHint(QPainter::Antialiasing);
  picture_.render(&painter, page);
}

QRectF DrawingPage::sheetPlace() const {
  const QSizeF paper = picture_.viewBoxF().size();
  const QSizeF fitted = paper.scaled(size() - QSize(16, 16), Qt::KeepAspectRatio) * zoom_;
  return {QPointF((width() - fitted.width()) / 2, (height() - fitted.height()) / 2) + shift_,
          fitted};
}

/// What lies under the pointer stays there.
void DrawingPage::zoom(QPointF about, double notches) {
  const double before = zoom_;
  zoom_ = std::clamp(zoom_ * std::pow(kZoomPerNotch, notches), 1.0, kMostZoom);
  const QPointF from = about - QPointF(width() / 2.0, height() / 2.0);
  shift_ = from + (shift_ - from) * (zoom_ / before);
  shift({});
}

/// Keeps the sheet in sight: as far as it is larger than the page it may be shifted, no further.
void DrawingPage::shift(QPointF by) {
  shift_ += by;
  const QSizeF sheet = sheetPlace().size();
  const double x = std::max(0.0, (sheet.width() - width()) / 2 + 8);
  const double y = std::max(0.0, (sheet.height() - height()) / 2 + 8);
  shift_ = zoom_ <= 1 ? QPointF()
                      : QPointF(std::clamp(shift_.x(), -x, x), std::clamp(shift_.y(), -y, y));
  update();
}

void DrawingPage::showWholeSheet() {
  zoom_ = 1;
  shift({});
}

void DrawingPage::wheelEvent(QWheelEvent* event) {
  zoom(event->position(), event->angleDelta().y() / 120.0);
}

void DrawingPage::mousePressEvent(QMouseEvent* event) {
  last_ = event->position();
}

void DrawingPage::mouseMoveEvent(QMouseEvent* event) {
  shift(event->position() - last_);
  last_ = event->position();
}

void DrawingPage::mouseDoubleClickEvent(QMouseEvent*) {
  showWholeSheet();
}

void DrawingPage::keyPressEvent(QKeyEvent* event) {
  const QPointF middle(width() / 2.0, height() / 2.0);
  switch (event->key()) {
    case Qt::Key_Plus:
    case Qt::Key_Equal:
      return zoom(middle, 1);
    case Qt::Key_Minus:
      return zoom(middle, -1);
    case Qt::Key_Home:
      return showWholeSheet();
    case Qt::Key_Left:
      return shift({kKeyShift, 0});
    case Qt::Key_Right:
      return shift({-kKeyShift, 0});
    case Qt::Key_Up:
      return shift({0, kKeyShift});
    case Qt::Key_Down:
      return shift({0, -kKeyShift});
    default:
      QWidget::keyPressEvent(event);
  }
}

}  // namespace dryfit::viewer

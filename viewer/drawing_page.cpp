#include "viewer/drawing_page.h"

#include <QPainter>

#include "viewer/bench_document.h"
#include "viewer/look.h"

namespace dryfit::viewer {

DrawingPage::DrawingPage(BenchDocument& document, QWidget* parent)
    : QWidget(parent), document_(document) {
  setObjectName("drawing");
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
                     trouble_.isEmpty() ? tr("Drawing…") : trouble_);
    return;
  }
  const QSizeF paper = picture_.viewBoxF().size();
  const QSizeF fitted = paper.scaled(size() - QSize(16, 16), Qt::KeepAspectRatio);
  const QRectF page(QPointF((width() - fitted.width()) / 2, (height() - fitted.height()) / 2),
                    fitted);
  painter.fillRect(page, Qt::white);
  painter.setRenderHint(QPainter::Antialiasing);
  picture_.render(&painter, page);
}

}  // namespace dryfit::viewer

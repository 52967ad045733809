#include "viewer/pages/layout_picture.h"

#include <QHelpEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QToolTip>
#include <algorithm>

#include "viewer/look/look.h"

namespace dryfit::viewer {
namespace {

constexpr double kLeastPoints = 7;  // of letters that can still be read
constexpr double kMargin = 14;      // pixels round the board
const QColor kBoard{0xe6, 0xd8, 0xbd};
const QColor kBlank{0xc9, 0xa7, 0x74};
const QColor kBlankLine{0x6b, 0x52, 0x33};
const QColor kFault{0x8a, 0x3b, 0x2c};

}  // namespace

LayoutPicture::LayoutPicture(QWidget* parent) : QWidget(parent) {
  setMinimumSize(240, 90);
  setMouseTracking(true);
}

void LayoutPicture::show(std::shared_ptr<const exporting::LayoutJob> job, std::size_t stock) {
  job_ = std::move(job);
  stock_ = stock;
  update();
}

void LayoutPicture::choose(const std::vector<joinery::PartId>& parts) {
  chosen_ = parts;
  update();
}

const joinery::StockLayout* LayoutPicture::shown() const {
  if (!job_ || stock_ >= job_->layout.stock.size()) return nullptr;
  return &job_->layout.stock[stock_];
}

QTransform LayoutPicture::toPixels() const {
  const joinery::FlatRect bounds = exporting::boundsOfStock(job_->itemOf(*shown()));
  const double scale =
      std::min((width() - 2 * kMargin) / bounds.length, (height() - 2 * kMargin) / bounds.width);
  const double left = (width() - bounds.length * scale) / 2;
  const double top = (height() - bounds.width * scale) / 2;
  QTransform to;
  to.translate(left, top + bounds.width * scale);
  to.scale(scale, -scale);
  to.translate(-bounds.x, -bounds.y);
  return to;
}

QRectF LayoutPicture::pixels(const joinery::FlatRect& rect) const {
  return toPixels().mapRect(QRectF(rect.x, rect.y, rect.length, rect.width));
}

const joinery::PlacedBlank* LayoutPicture::under(QPointF at) const {
  const joinery::StockLayout* layout = shown();
  if (layout == nullptr) return nullptr;
  const auto found = std::find_if(
      layout->blanks.begin(), layout->blanks.end(),
      [&](const joinery::PlacedBlank& placed) { return pixels(placed.at).contains(at); });
  return found == layout->blanks.end() ? nullptr : &*found;
}

void LayoutPicture::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.fillRect(rect(), colour::sheet);
  const joinery::StockLayout* layout = shown();
  if (layout == nullptr) {
    painter.setPen(colour::fadedInk);
    painter.drawText(rect(), Qt::AlignCenter, tr("Nothing laid out yet"));
    return;
  }
  painter.setRenderHint(QPainter::Antialiasing);
  paintWood(painter);
  for (const joinery::PlacedBlank& placed : layout->blanks) paintBlank(painter, placed);
}

/// The board or sheet itself, what is left of it worth keeping, and its faults.
void LayoutPicture::paintWood(QPainter& painter) const {
  const joinery::StockItem& item = job_->itemOf(*shown());
  QPolygonF outline;
  for (const joinery::FlatPoint& p : item.shape()) outline << QPointF(p.x, p.y);
  painter.setPen(QPen(kBlankLine, 1));
  painter.setBrush(kBoard);
  painter.drawPolygon(toPixels().map(outline));
  painter.setPen(QPen(kBlankLine, 1, Qt::DashLine));
  painter.setBrush(Qt::NoBrush);
  for (const joinery::FlatRect& offcut : shown()->offcuts) painter.drawRect(pixels(offcut));
  painter.setPen(QPen(kFault, 1));
  painter.setBrush(QBrush(kFault, Qt::BDiagPattern));
  for (const joinery::Defect& defect : item.defects) painter.drawRect(pixels(defect.zone));
}

void LayoutPicture::paintBlank(QPainter& painter, const joinery::PlacedBlank& placed) const {
  const joinery::Blank& blank = job_->blankOf(placed.blank);
  const bool stands =
      blank.part && std::find(chosen_.begin(), chosen_.end(), *blank.part) != chosen_.end();
  const QRectF box = pixels(placed.at);
  painter.setPen(QPen(stands ? colour::accent : kBlankLine, stands ? 2 : 1));
  painter.setBrush(stands ? colour::accentPale : kBlank);
  painter.drawRect(box);
  const QString number = QString::fromStdString(job_->markOf(placed.blank));
  const QString whole = number + "  " + QString::fromStdString(job_->nameOfBlank(placed.blank));
  const QRectF room = box.adjusted(3, 0, -3, 0);
  painter.setPen(colour::ink);
  // Name and number where they fit, else the number; each as large as the part allows.
  for (const QString& words : {whole, number}) {
    for (double points = font().pointSizeF(); points >= kLeastPoints; points -= 0.5) {
      QFont lettering = font();
      lettering.setPointSizeF(points);
      const QFontMetricsF measure(lettering);
      // Of the height only what letters and their tails take: strips are narrow.
      if (measure.capHeight() + measure.descent() + 1 > room.height()) continue;
      if (measure.horizontalAdvance(words) > room.width()) continue;
      painter.setFont(lettering);
      painter.drawText(room, Qt::AlignCenter | Qt::TextDontClip, words);
      return;
    }
  }
}

void LayoutPicture::mousePressEvent(QMouseEvent* event) {
  const joinery::PlacedBlank* placed = under(event->position());
  if (placed == nullptr) return;
  if (const auto part = job_->blankOf(placed->blank).part) Q_EMIT partChosen(*part);
}

bool LayoutPicture::event(QEvent* event) {
  if (event->type() != QEvent::ToolTip) return QWidget::event(event);
  const auto* help = static_cast<QHelpEvent*>(event);
  const joinery::PlacedBlank* placed = under(help->pos());
  if (placed == nullptr) {
    QToolTip::hideText();
    return true;
  }
  const QString size = QString::fromStdString(job_->roughSizeOf(placed->blank));
  QToolTip::showText(
      help->globalPos(),
      tr("%1\nrough %2").arg(QString::fromStdString(job_->nameOfBlank(placed->blank)), size), this);
  return true;
}

}  // namespace dryfit::viewer

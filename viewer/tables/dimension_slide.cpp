#include "viewer/tables/dimension_slide.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QSignalBlocker>
#include <QSlider>
#include <algorithm>
#include <cmath>

#include "joinery/base/plain_text.h"
#include "joinery/formula/length_text.h"

namespace dryfit::viewer {
namespace {

constexpr double kReach = 0.3;    // of the value, to either side
constexpr int kFewestSteps = 10;  // to either side

/// What one step of the slide changes, in the file's unit: a millimetre, or a sixteenth of an inch.
double stepIn(joinery::Unit unit) {
  switch (unit) {
    case joinery::Unit::mm:
      return 1;
    case joinery::Unit::cm:
      return 0.1;
    case joinery::Unit::inch:
      return 1.0 / 16;
  }
  return 1;
}

}  // namespace

DimensionSlide::DimensionSlide(BenchDocument& document, QWidget* parent)
    : QWidget(parent), document_(document), words_(new QLabel(this)), slide_(new QSlider(this)) {
  slide_->setOrientation(Qt::Horizontal);
  slide_->setObjectName("dimensionSlide");
  words_->setProperty("role", "aside");
  words_->setMinimumWidth(210);
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(8, 2, 8, 4);
  row->addWidget(words_);
  row->addWidget(slide_, 1);
  connect(slide_, &QSlider::valueChanged, this, &DimensionSlide::slideTo);
  connect(slide_, &QSlider::sliderReleased, this, &DimensionSlide::letGo);
  connect(&document_, &BenchDocument::opened, this, [this] { take(-1); });
  connect(&document_, &BenchDocument::numbersChanged, this, &DimensionSlide::refresh);
  take(-1);
}

void DimensionSlide::take(int dimension) {
  dimension_ = dimension;
  stroke_ = document_.newStroke();
  refresh();
}

const joinery::Dimension* DimensionSlide::dimension() const {
  if (!document_.isOpen() || dimension_ < 0) return nullptr;
  const auto& all = document_.model().dimensions;
  if (static_cast<std::size_t>(dimension_) >= all.size()) return nullptr;
  const joinery::Dimension& chosen = all[static_cast<std::size_t>(dimension_)];
  const bool plain = chosen.value.isNumber && chosen.quantity == joinery::Quantity::length;
  return plain ? &chosen : nullptr;
}

/// Sets the slide to the number as it stands, unless it is the slide that moves it.
void DimensionSlide::refresh() {
  const joinery::Dimension* chosen = dimension();
  slide_->setEnabled(chosen != nullptr);
  if (chosen == nullptr) {
    words_->setText(dimension_ < 0 ? tr("Choose a dimension to adjust it here")
                                   : tr("A formula: edit it in the table above"));
    return;
  }
  words_->setText(tr("Adjust %1").arg(QString::fromStdString(chosen->name)));
  if (slide_->isSliderDown()) return;
  const double value = joinery::plainNumber(chosen->value.text);
  const double step = stepIn(document_.model().unit);
  const int at = static_cast<int>(std::lround(value / step));
  const int reach = std::max(kFewestSteps, static_cast<int>(std::lround(kReach * value / step)));
  const QSignalBlocker quiet(slide_);
  slide_->setRange(std::max(1, at - reach), at + reach);
  slide_->setValue(at);
}

void DimensionSlide::slideTo(int steps) {
  const joinery::Dimension* chosen = dimension();
  if (chosen == nullptr) return;
  const double value = steps * stepIn(document_.model().unit);
  const QString name = tr("change of %1").arg(QString::fromStdString(chosen->name));
  const auto edit = dimensionEdit(chosen->name, QString::number(value, 'g', 10).toStdString());
  if (const auto done = document_.apply(name, edit, stroke_); !done) {
    Q_EMIT refused(QString::fromStdString(done.error().line()));
  } else {
    Q_EMIT taken();
  }
}

void DimensionSlide::letGo() {
  stroke_ = document_.newStroke();
  refresh();
}

}  // namespace dryfit::viewer

#include "viewer/window/sight_bar.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QSignalBlocker>
#include <QSlider>
#include <QToolButton>
#include <algorithm>
#include <cmath>

#include "joinery/piece/piece_bounds.h"
#include "viewer/building/name_completer.h"
#include "viewer/look/words.h"

namespace dryfit::viewer {
namespace {

constexpr int kSteps = 1000;  // of the cut's slide
constexpr int kOpenSteps = 240;
constexpr int kMoved = 10;  // of the steps, by one key

}  // namespace

SightBar::SightBar(BenchDocument& document, View3d& view, QWidget* parent)
    : QWidget(parent), document_(document), view_(view) {
  across_ = new QComboBox;
  across_->setObjectName("cutAcross");
  across_->addItems({tr("not cut"), tr("across x, left to right"), tr("across y, front to back"),
                     tr("across z, bottom to top")});
  across_->setToolTip(tr("Cuts the piece open at a plane"));
  place_ = new QSlider(Qt::Horizontal);
  place_->setObjectName("cutPlace");
  place_->setRange(0, kSteps);
  place_->setMinimumWidth(60);
  at_ = new QLineEdit;
  at_->setObjectName("cutAt");
  at_->setToolTip(tr("Where it is cut: a length, or a number of the piece by its name"));
  at_->setMinimumWidth(fontMetrics().horizontalAdvance("0000.00"));
  at_->setMaximumWidth(fontMetrics().horizontalAdvance("left_side.right mm"));
  completeNames(at_, document_);
  side_ = new QToolButton;
  side_->setObjectName("cutSide");
  side_->setText(tr("Other side"));
  side_->setToolTip(tr("Shows the half that was taken away"));
  opened_ = new QSlider(Qt::Horizontal);
  opened_->setObjectName("openedOut");
  opened_->setRange(0, kOpenSteps);
  opened_->setMinimumWidth(60);
  opened_->setToolTip(tr("Takes the joints apart, along the ways in which they go together"));
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(8, 3, 8, 3);
  row->addWidget(new QLabel(tr("Cut")));
  row->addWidget(across_);
  row->addWidget(place_, 2);
  row->addWidget(at_);
  row->addWidget(side_);
  row->addSpacing(fontMetrics().averageCharWidth() * 2);
  row->addWidget(new QLabel(tr("Open out")));
  row->addWidget(opened_, 2);

  connect(across_, &QComboBox::activated, this, [this](int index) {
    cutAcross(index == 0 ? std::nullopt : std::optional(static_cast<joinery::Axis>(index - 1)));
  });
  connect(place_, &QSlider::valueChanged, this, &SightBar::slide);
  connect(at_, &QLineEdit::editingFinished, this, &SightBar::takeText);
  connect(side_, &QToolButton::clicked, this, &SightBar::turnCut);
  connect(opened_, &QSlider::valueChanged, this, [this](int value) {
    view_.openOut(double(value) / kOpenSteps);
    view_.keepInSight();
  });
  connect(&document_, &BenchDocument::opened, this, &SightBar::reset);
  connect(&document_, &BenchDocument::numbersChanged, this, &SightBar::showCut);
  showCut();
}

void SightBar::reset() {
  cut_.reset();
  view_.setCut(std::nullopt);
  const QSignalBlocker quiet(opened_);
  opened_->setValue(0);
  showCut();
}

std::pair<double, double> SightBar::reach(joinery::Axis axis) const {
  const joinery::Piece* piece = document_.piece();
  if (piece == nullptr || piece->parts.empty()) return {0, 1};
  const kernel::Box3 all = joinery::boundsOf(*piece);
  const int along = static_cast<int>(axis);
  return {all.min[along], all.max[along]};
}

void SightBar::showCut() {
  for (QWidget* widget :
       {static_cast<QWidget*>(place_), static_cast<QWidget*>(at_), static_cast<QWidget*>(side_)}) {
    widget->setEnabled(cut_.has_value());
  }
  setEnabled(document_.isOpen());
  across_->setCurrentIndex(cut_ ? static_cast<int>(cut_->axis) + 1 : 0);
  if (!cut_) return at_->clear();
  const auto [low, high] = reach(cut_->axis);
  const QSignalBlocker quiet(place_);
  place_->setValue(int(std::lround((cut_->at - low) / std::max(1e-6, high - low) * kSteps)));
  if (!at_->hasFocus()) at_->setText(lengthWords(cut_->at, document_.unit()));
}

void SightBar::cutAcross(std::optional<joinery::Axis> axis) {
  if (!axis) {
    cut_.reset();
  } else {
    const auto [low, high] = reach(*axis);
    // The half towards the eye goes.
    const kernel::Viewpoint seen = view_.viewpoint();
    const kernel::Vec3 toEye = seen.right.cross(seen.up);
    cut_ = Cut{*axis, (low + high) / 2, toEye[static_cast<int>(*axis)] < 0};
  }
  view_.setCut(cut_);
  showCut();
}

void SightBar::slide(int value) {
  if (!cut_) return;
  const auto [low, high] = reach(cut_->axis);
  cut_->at = low + (high - low) * value / kSteps;
  view_.setCut(cut_);
  at_->setText(lengthWords(cut_->at, document_.unit()));
}

void SightBar::moveCut(int steps) {
  if (cut_) place_->setValue(place_->value() + steps * kMoved);
}

void SightBar::turnCut() {
  if (!cut_) return;
  cut_->keepsFar = !cut_->keepsFar;
  view_.setCut(cut_);
}

void SightBar::takeText() {
  if (!cut_ || document_.piece() == nullptr) return;
  const std::string text = at_->text().trimmed().toStdString();
  const auto named = document_.piece()->values.find(text);
  if (named != document_.piece()->values.end()) {
    cut_->at = named->second;
  } else if (const auto length = joinery::parseLength(text, document_.unit())) {
    cut_->at = length->mm();
  } else {
    Q_EMIT refused(QString::fromStdString(length.error().line()));
  }
  view_.setCut(cut_);
  const QSignalBlocker quiet(at_);
  at_->setText(lengthWords(cut_->at, document_.unit()));
  showCut();
}

void SightBar::open(int steps) {
  opened_->setValue(opened_->value() + steps * kMoved);
}

void SightBar::close() {
  opened_->setValue(0);
}

}  // namespace dryfit::viewer

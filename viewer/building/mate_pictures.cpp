#include "viewer/building/mate_pictures.h"

#include <QGridLayout>
#include <QLabel>

#include "viewer/look/words.h"
#include "viewer/view/mate_picture.h"

namespace dryfit::viewer {
namespace {

constexpr int kWide = 210, kHigh = 130;  // pixels at the usual scale

}  // namespace

MatePictures::MatePictures(QWidget* parent) : QWidget(parent) {
  setObjectName("matePictures");
  auto* grid = new QGridLayout(this);
  grid->setContentsMargins(0, 0, 0, 0);
  for (int mate = 0; mate < 2; ++mate) {
    for (int half = 0; half < 2; ++half) {
      Shown& one = shown_[static_cast<std::size_t>(mate)][static_cast<std::size_t>(half)];
      one.words = new QLabel;
      one.words->setProperty("role", "aside");
      one.picture = new QLabel;
      one.picture->setObjectName(QString("mate%1_%2").arg(mate).arg(half));
      one.picture->setFixedSize(kWide, kHigh);
      one.picture->setWordWrap(true);
      grid->addWidget(one.words, 2 * mate, half);
      grid->addWidget(one.picture, 2 * mate + 1, half);
    }
  }
  grid->setRowStretch(4, 1);
}

void MatePictures::show(const joinery::Model& model, const std::vector<joinery::MateHalf>& halves) {
  const double ratio = devicePixelRatioF();
  for (std::size_t mate = 0; mate < shown_.size(); ++mate) {
    for (std::size_t side = 0; side < 2; ++side) {
      const auto& [words, picture] = shown_[mate][side];
      words->clear();
      picture->clear();
      if (mate >= halves.size()) continue;
      const QString who = labelWords(model.parts[halves[mate].part.index()]);
      words->setText(side == 0 ? tr("%1 before").arg(who) : tr("and with the joint"));
      auto drawn = matePicture(halves[mate], side == 0 ? Half::before : Half::after,
                               QSize(kWide, kHigh) * ratio);
      if (!drawn) {
        picture->setText(QString::fromStdString(drawn.error().line()));
        continue;
      }
      drawn->setDevicePixelRatio(ratio);
      picture->setPixmap(QPixmap::fromImage(*drawn));
    }
  }
}

}  // namespace dryfit::viewer

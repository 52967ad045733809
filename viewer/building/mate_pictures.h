#pragma once

#include <QWidget>
#include <array>
#include <vector>

#include "joinery/building/joint_proposals.h"

class QLabel;

namespace dryfit::viewer {

/// The first two mates of a joint that is tried, each alone: before it, and with it.
class MatePictures : public QWidget {
  Q_OBJECT
 public:
  explicit MatePictures(QWidget* parent = nullptr);
  void show(const joinery::Model& model, const std::vector<joinery::MateHalf>& halves);

 private:
  /// Words above a picture, and the picture.
  struct Shown {
    QLabel *words = nullptr, *picture = nullptr;
  };
  std::array<std::array<Shown, 2>, 2> shown_;  ///< by mate, before and after
};

}  // namespace dryfit::viewer

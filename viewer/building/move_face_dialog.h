#pragma once

#include <QTimer>

#include "joinery/building/face_moves.h"
#include "joinery/fit/live_fit.h"
#include "viewer/building/face_dialog.h"
#include "viewer/document/bench_document.h"

class QLabel;
class QLineEdit;
class QPushButton;

namespace dryfit::viewer {

/// Lets a face stand elsewhere: tells what holds it now, takes a length, an expression or a face
/// picked in the view, and tells what goes along.
class MoveFaceDialog : public FaceDialog {
  Q_OBJECT
 public:
  MoveFaceDialog(BenchDocument& document, joinery::LiveFit& trials, joinery::PartFace face,
                 QWidget* parent);

  void take(joinery::PartFace face) override;
  void pointAt(std::optional<joinery::PartFace> face) override;

 private:
  [[nodiscard]] BenchDocument::Edit edit(const QString& text) const;
  void tryIt(const QString& text);
  void move();

  BenchDocument& document_;
  joinery::LiveFit& trials_;
  joinery::PartFace face_;
  QLineEdit* place_ = nullptr;
  QLabel* follows_ = nullptr;
  QLabel* verdict_ = nullptr;
  QTimer pause_;  ///< until the dry fit is asked
  QPushButton* move_ = nullptr;
};

}  // namespace dryfit::viewer

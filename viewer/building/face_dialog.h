#pragma once

#include <QDialog>
#include <optional>

#include "joinery/piece/part_face.h"

namespace dryfit::viewer {

/// A window beside the view that takes the faces which are pointed at there, and shows there what
/// it would make.
class FaceDialog : public QDialog {
  Q_OBJECT
 public:
  using QDialog::QDialog;
  /// A face was picked in the view.
  virtual void take(joinery::PartFace face) = 0;
  /// The pointer is on a face, or on none.
  virtual void pointAt(std::optional<joinery::PartFace> face) = 0;

 Q_SIGNALS:
  void ghostChanged(const std::optional<dryfit::kernel::Box3>& ghost);
};

}  // namespace dryfit::viewer

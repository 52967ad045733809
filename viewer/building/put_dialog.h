#pragma once

#include <QTimer>
#include <array>
#include <map>
#include <string>
#include <vector>

#include "joinery/building/use_proposal.h"
#include "joinery/fit/live_fit.h"
#include "viewer/building/face_dialog.h"
#include "viewer/document/bench_document.h"

class QComboBox;
class QFormLayout;
class QLabel;
class QLineEdit;
class QPushButton;

namespace dryfit::viewer {

/// A sub-assembly that is put into an opening: faces that are picked in the view become its ends.
/// What is wrong is told as it is typed, and a moment later what the dry fit would say.
class PutDialog : public FaceDialog {
  Q_OBJECT
 public:
  PutDialog(BenchDocument& document, joinery::LiveFit& trials, std::vector<joinery::PartFace> faces,
            QWidget* parent);

  void take(joinery::PartFace face) override;
  void pointAt(std::optional<joinery::PartFace> face) override;

 private:
  struct Row {
    QLineEdit *from, *to, *size;
  };
  void propose();
  [[nodiscard]] joinery::NewUse use() const;
  [[nodiscard]] BenchDocument::Edit edit() const;
  void showGhost(const joinery::NewUse& use);
  void tryIt();
  void put();

  BenchDocument& document_;
  joinery::LiveFit& trials_;
  std::vector<joinery::PartFace> faces_;  ///< that the opening is made of
  QTimer pause_;
  QComboBox* of_ = nullptr;
  QLineEdit* name_ = nullptr;
  std::array<Row, 3> rows_{};
  QWidget* near_ = nullptr;
  QFormLayout* nearForm_ = nullptr;
  std::vector<std::pair<std::string, QLineEdit*>> neighbours_;
  std::vector<std::pair<std::string, std::string>> values_;
  bool filling_ = true;
  QLabel *wrong_ = nullptr, *verdict_ = nullptr;
  QPushButton* put_ = nullptr;
};

}  // namespace dryfit::viewer

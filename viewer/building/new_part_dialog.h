#pragma once

#include <QTimer>
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "joinery/file/part_edits.h"
#include "joinery/fit/live_fit.h"
#include "viewer/building/face_dialog.h"
#include "viewer/document/bench_document.h"

class QComboBox;
class QGridLayout;
class QLabel;
class QLineEdit;
class QPushButton;

namespace dryfit::viewer {

/// What a new part between two parts begins as: from face to face where they look at each other,
/// flush with the first one's top and front.
[[nodiscard]] joinery::NewPart partBetween(const joinery::ModelFile& file,
                                           const joinery::Piece& piece, joinery::PartId a,
                                           joinery::PartId b);

/// The same between two faces that look at each other, or away from each other; nothing where they
/// do not lie across one axis.
[[nodiscard]] std::optional<joinery::NewPart> partBetweenFaces(const joinery::ModelFile& file,
                                                               const joinery::Piece& piece,
                                                               joinery::PartFace a,
                                                               joinery::PartFace b);

/// A part that is put between faces: the field with the caret takes the face that is picked in the
/// view. What is wrong is told as it is typed, and a moment later what the dry fit would say.
class NewPartDialog : public FaceDialog {
  Q_OBJECT
 public:
  NewPartDialog(BenchDocument& document, joinery::LiveFit& trials, const joinery::NewPart& begun,
                QWidget* parent);

  void take(joinery::PartFace face) override;
  void pointAt(std::optional<joinery::PartFace> face) override;

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  struct Row {
    QComboBox* along;
    QLineEdit *from, *to, *size, *centre;
  };
  [[nodiscard]] Row addRow(QGridLayout* grid, int row, const QString& words, const char* name,
                           const joinery::NewSpan& span);
  [[nodiscard]] joinery::NewPart part() const;
  /// The part as it would be with this face in the field that takes it.
  [[nodiscard]] joinery::NewPart partWith(joinery::PartFace face) const;
  [[nodiscard]] joinery::NewSpan& spanIn(joinery::NewPart& part) const;
  void showGhost(const joinery::NewPart& part);
  void fillIn(const joinery::NewPart& part);
  void goOn();
  [[nodiscard]] static joinery::NewSpan spanOf(const Row& row);
  void tryIt();
  /// Two sizes cannot run one way: the other one takes the way that this row gave up.
  void turn(std::size_t row);
  void askDryFit();
  void make();

  BenchDocument& document_;
  joinery::LiveFit& trials_;
  QTimer pause_;  ///< in the typing, before the dry fit is asked
  QLineEdit* name_ = nullptr;
  QComboBox* material_ = nullptr;
  Row length_{}, width_{}, thickness_{};
  QLineEdit* field_ = nullptr;   ///< that takes what is picked
  std::array<QString, 3> ways_;  ///< along which the three run
  bool touched_ = false;         ///< by the maker
  bool filling_ = false;
  QLabel *wrong_ = nullptr, *verdict_ = nullptr;
  QPushButton* make_ = nullptr;
};

}  // namespace dryfit::viewer

#pragma once

#include <QDialog>
#include <vector>

#include "joinery/building/joint_proposals.h"
#include "viewer/document/bench_document.h"

class QLabel;
class QLineEdit;
class QPushButton;
class QTableWidget;
class QTableWidgetItem;

namespace dryfit::viewer {

class MatePictures;

/// The kinds that could join two parts, the best first, each with what the dry fit would say. The
/// numbers of a kind can be typed over; the dry fit tries the joint anew with them.
class JoinDialog : public QDialog {
  Q_OBJECT
 public:
  /// The joints named `had` are taken out for the new one: `bare` is the file without them.
  JoinDialog(BenchDocument& document, joinery::ModelFile bare, joinery::LiveFit& trials,
             std::vector<joinery::JointProposal> proposals, std::vector<std::string> had,
             const QString& heading, QWidget* parent);

 private:
  void showRow(int row);
  void showVerdict(int row);
  void fillNumbers(const joinery::JointProposal& proposal);
  /// Tries the joint of the current row with what stands in its numbers.
  void tryNumber(const QTableWidgetItem* item);
  void join();

  BenchDocument& document_;
  joinery::ModelFile bare_;
  joinery::LiveFit& trials_;
  std::vector<joinery::JointProposal> proposals_;
  std::vector<std::string> had_;
  QTableWidget* numbers_ = nullptr;
  MatePictures* pictures_ = nullptr;
  QTableWidget* table_ = nullptr;
  QLabel* words_ = nullptr;
  QPushButton* join_ = nullptr;
};

/// A proposal for every meeting that has no joint, to be gone through.
class JoinAllDialog : public QDialog {
  Q_OBJECT
 public:
  JoinAllDialog(BenchDocument& document, std::vector<joinery::JointProposal> proposals,
                QWidget* parent);

 private:
  void join();

  BenchDocument& document_;
  std::vector<joinery::JointProposal> proposals_;
  QTableWidget* table_ = nullptr;
  QLabel* words_ = nullptr;
};

/// "blind mortise tenon: rail into stile".
[[nodiscard]] QString jointWords(const joinery::Model& model, const joinery::NewJoint& joint);
/// "nothing found", or how many errors and warnings it would make.
[[nodiscard]] QString verdictWords(const joinery::JointProposal& proposal);

}  // namespace dryfit::viewer

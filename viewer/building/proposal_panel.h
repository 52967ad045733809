#pragma once

#include <QWidget>

#include "joinery/building/joint_proposals.h"
#include "viewer/document/bench_document.h"

class QLabel;
class QTableWidget;
class QTableWidgetItem;

namespace dryfit::viewer {

class MatePictures;

/// One joint that is tried: its numbers to be typed over, pictures of its two halves, and what the
/// dry fit says.
class ProposalPanel : public QWidget {
  Q_OBJECT
 public:
  explicit ProposalPanel(const BenchDocument& document, QWidget* parent = nullptr);
  void show(const joinery::JointProposal& proposal);
  /// The number that was typed last cannot be.
  void refuse(const QString& line);
  /// Words alone, without a joint.
  void say(const QString& words);

 Q_SIGNALS:
  /// What was tried is to be tried with this in its place.
  void typed(const dryfit::joinery::NewJoint& joint);

 private:
  void fillNumbers();
  void takeNumber(const QTableWidgetItem* item);

  const BenchDocument& document_;
  joinery::JointProposal shown_;
  int typedRow_ = -1;
  QTableWidget* numbers_ = nullptr;
  MatePictures* pictures_ = nullptr;
  QLabel* words_ = nullptr;
};

/// A table of rows that are chosen one at a time.
[[nodiscard]] QTableWidget* rowTable(const QStringList& heads, const char* name);
/// "blind mortise tenon: rail into stile".
[[nodiscard]] QString jointWords(const joinery::Model& model, const joinery::NewJoint& joint);
/// "nothing found", or how many errors and warnings it would make.
[[nodiscard]] QString verdictWords(const joinery::JointProposal& proposal);

}  // namespace dryfit::viewer

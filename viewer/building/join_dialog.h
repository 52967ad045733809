#pragma once

#include <QDialog>
#include <vector>

#include "joinery/building/joint_proposals.h"
#include "viewer/document/bench_document.h"

class QPushButton;
class QTableWidget;

namespace dryfit::viewer {

class ProposalPanel;

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
  void tryAnew(const joinery::NewJoint& joint);
  void join();

  BenchDocument& document_;
  joinery::ModelFile bare_;
  joinery::LiveFit& trials_;
  std::vector<joinery::JointProposal> proposals_;
  std::vector<std::string> had_;
  QTableWidget* table_ = nullptr;
  ProposalPanel* panel_ = nullptr;
  QPushButton* join_ = nullptr;
};

}  // namespace dryfit::viewer

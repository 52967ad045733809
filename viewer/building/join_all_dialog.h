#pragma once

#include <QDialog>
#include <vector>

#include "joinery/building/joint_proposals.h"
#include "viewer/document/bench_document.h"

class QLabel;
class QTableWidget;

namespace dryfit::viewer {

class ProposalPanel;

/// A joint for every meeting that has none, to be gone through: each of a kind that fits its
/// meeting, with numbers that can be typed over, tried with those before it in place.
class JoinAllDialog : public QDialog {
  Q_OBJECT
 public:
  JoinAllDialog(BenchDocument& document, joinery::LiveFit& trials,
                std::vector<joinery::MeetingChoices> meetings, QWidget* parent);

 private:
  /// A meeting with the choice that stands for it now.
  struct Row {
    joinery::MeetingChoices meeting;
    std::size_t chosen = 0;
    [[nodiscard]] joinery::JointProposal& now() { return meeting.choices[chosen]; }
  };
  void fillRow(int row);
  void chooseKind(int row, int choice);
  void showRow(int row);
  /// Tries a row's joint with the ticked ones before it in place; false where it cannot be.
  bool tryRow(int row, const joinery::NewJoint& joint);
  [[nodiscard]] bool isTicked(int row) const;
  void join();

  BenchDocument& document_;
  joinery::LiveFit& trials_;
  std::vector<Row> rows_;
  QTableWidget* table_ = nullptr;
  ProposalPanel* panel_ = nullptr;
  QLabel* words_ = nullptr;
};

}  // namespace dryfit::viewer

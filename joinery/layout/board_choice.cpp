#include "joinery/layout/board_choice.h"

#include <CbcHeuristic.hpp>
#include <CbcModel.hpp>
#include <CglKnapsackCover.hpp>
#include <CoinPackedVector.hpp>
#include <OsiClpSolverInterface.hpp>
#include <algorithm>
#include <cmath>

#include "joinery/layout/quiet_solver.h"
#include "joinery/layout/solver_stop.h"

namespace dryfit::joinery::cutting {
namespace {

constexpr double kDearest = 1e4;  // costs are scaled to it, as the solver's tolerances are absolute
constexpr double kSafe = 1 - 1e-8;

/// One column a board, equal boards in their order.
class Chooser {
 public:
  Chooser(const BoardChoice& choice, const ChoiceSearch& search)
      : choice_(choice), search_(search) {
    for (const double cost : choice.costs) scale_ = std::max(scale_, cost);
    scale_ = scale_ > 0 ? kDearest / scale_ : 1;
    for (std::size_t k = 0; k < choice.costs.size(); ++k) {
      for (int c = 0; c < choice.counts[k]; ++c) kinds_.push_back(k);
    }
  }

  ChosenBoards run() {
    silence(linear_);
    const CoinPackedVector none;
    for (const std::size_t kind : kinds_) linear_.addCol(none, 0, 1, choice_.costs[kind] * scale_);
    addRows();
    for (std::size_t c = 0; c < kinds_.size(); ++c) linear_.setInteger(static_cast<int>(c));
    try {
      return solve();
    } catch (const CoinError&) {
      return {};
    }
  }

 private:
  void addRows() {
    for (const CoverRule& rule : choice_.rules) {
      CoinPackedVector row;
      for (std::size_t c = 0; c < kinds_.size(); ++c) {
        const double most = std::min(choice_.aim, rule.most[kinds_[c]]);
        if (most > 0) row.insert(static_cast<int>(c), most);
      }
      linear_.addRow(row, choice_.aim, linear_.getInfinity());
    }
    for (const std::vector<int>& tried : choice_.tried) {
      CoinPackedVector row;
      std::vector<int> left = tried;
      for (std::size_t c = 0; c < kinds_.size(); ++c) {
        if (--left[kinds_[c]] < 0) row.insert(static_cast<int>(c), 1);
      }
      linear_.addRow(row, 1, linear_.getInfinity());
    }
    for (std::size_t c = 0; c + 1 < kinds_.size(); ++c) {
      if (kinds_[c] != kinds_[c + 1]) continue;
      CoinPackedVector row;
      row.insert(static_cast<int>(c), 1);
      row.insert(static_cast<int>(c) + 1, -1);
      linear_.addRow(row, 0, linear_.getInfinity());
    }
  }

  ChosenBoards solve() {
    const auto stop = std::make_shared<SolverStop>(search_.goOn);
    CbcModel model(linear_);
    silence(model);
    model.setMaximumNodes(search_.nodesMost);
    model.setRandomSeed(1);
    const NodeStop nodeStop(stop);
    model.passInEventHandler(&nodeStop);
    CglKnapsackCover cover;
    CbcRounding rounding(model);
    model.addCutGenerator(&cover, -1, "cover");
    model.addHeuristic(&rounding);
    model.initialSolve();
    if (model.solver()->isProvenPrimalInfeasible()) return {{}, 1e300};
    model.branchAndBound();
    ChosenBoards chosen;
    const bool ended = model.status() == 0 && !stop->stopped();
    const double* solution = model.bestSolution();
    if (solution == nullptr) {
      chosen.bound =
          ended ? 1e300 : std::max(0.0, model.getBestPossibleObjValue() / scale_ * kSafe);
      return chosen;
    }
    chosen.boards.assign(choice_.costs.size(), 0);
    double cost = 0;
    for (std::size_t c = 0; c < kinds_.size(); ++c) {
      if (std::lround(solution[c]) == 0) continue;
      ++chosen.boards[kinds_[c]];
      cost += choice_.costs[kinds_[c]];
    }
    const double bound = ended ? cost : std::min(cost, model.getBestPossibleObjValue() / scale_);
    chosen.bound = std::max(0.0, bound * kSafe);
    return chosen;
  }

  const BoardChoice& choice_;
  const ChoiceSearch& search_;
  std::vector<std::size_t> kinds_;  ///< of each column
  OsiClpSolverInterface linear_;
  double scale_ = 0;
};

}  // namespace

ChosenBoards chooseBoards(const BoardChoice& choice, const ChoiceSearch& search) {
  return Chooser(choice, search).run();
}

}  // namespace dryfit::joinery::cutting

#include "joinery/layout/master_problem.h"

#include <CbcHeuristic.hpp>
#include <CbcHeuristicDiveCoefficient.hpp>
#include <CbcModel.hpp>
#include <CglClique.hpp>
#include <CglGomory.hpp>
#include <CglKnapsackCover.hpp>
#include <CoinPackedVector.hpp>
#include <OsiClpSolverInterface.hpp>
#include <algorithm>
#include <cmath>

#include "joinery/layout/quiet_solver.h"
#include "joinery/layout/solver_stop.h"

namespace dryfit::joinery::cutting {

namespace {

constexpr int kFewColumns = 150;

}  // namespace

struct MasterProblem::Solver {
  OsiClpSolverInterface linear;
  std::vector<CoinPackedVector> waiting;  ///< columns to be added together, which is much faster
  std::vector<double> waitingCosts;
  std::shared_ptr<SolverStop> stop = std::make_shared<SolverStop>(nullptr);

  void addWaiting() {
    if (waiting.empty()) return;
    std::vector<const CoinPackedVectorBase*> columns;
    for (const CoinPackedVector& column : waiting) columns.push_back(&column);
    const std::vector<double> least(waiting.size(), 0.0);
    const std::vector<double> most(waiting.size(), linear.getInfinity());
    linear.addCols(static_cast<int>(columns.size()), columns.data(), least.data(), most.data(),
                   waitingCosts.data());
    waiting.clear();
    waitingCosts.clear();
  }
};

MasterProblem::MasterProblem(const std::vector<int>& demands, const std::vector<int>& binCounts,
                             const std::vector<double>& missingCosts)
    : solver_(std::make_unique<Solver>()),
      items_(static_cast<int>(demands.size())),
      bins_(static_cast<int>(binCounts.size())) {
  OsiClpSolverInterface& linear = solver_->linear;
  silence(linear);
  const CoinPackedVector none;
  for (const int demand : demands) linear.addRow(none, demand, linear.getInfinity());
  for (const int count : binCounts) linear.addRow(none, -linear.getInfinity(), count);
  for (int i = 0; i < items_; ++i) {
    CoinPackedVector missing;
    missing.insert(i, 1.0);
    linear.addCol(missing, 0, demands[static_cast<std::size_t>(i)],
                  missingCosts[static_cast<std::size_t>(i)]);
  }
}

MasterProblem::~MasterProblem() = default;

void MasterProblem::askWhether(std::function<bool()> goOn) {
  solver_->stop = std::make_shared<SolverStop>(std::move(goOn));
  const StepStop stop(solver_->stop);
  solver_->linear.getModelPtr()->passInEventHandler(&stop);
}

int MasterProblem::columns() const {
  return columns_;
}

void MasterProblem::add(const MasterColumn& column) {
  CoinPackedVector rows;
  for (const auto& [item, copies] : column.items) rows.insert(item, copies);
  rows.insert(items_ + column.bin, 1.0);
  solver_->waiting.push_back(rows);
  solver_->waitingCosts.push_back(column.cost);
  ++columns_;
}

std::optional<MasterPrices> MasterProblem::relaxed() {
  OsiClpSolverInterface& linear = solver_->linear;
  solver_->addWaiting();
  if (solver_->stop->stopped()) return std::nullopt;
  try {
    linear.resolve();
  } catch (const CoinError&) {
    return std::nullopt;
  }
  if (!linear.isProvenOptimal()) return std::nullopt;
  MasterPrices prices;
  prices.value = linear.getObjValue();
  const double* dual = linear.getRowPrice();
  for (int i = 0; i < items_; ++i) prices.item.push_back(std::max(0.0, dual[i]));
  for (int j = 0; j < bins_; ++j) prices.bin.push_back(std::max(0.0, -dual[items_ + j]));
  return prices;
}

std::optional<MasterProblem::Whole> MasterProblem::whole(double below, int nodesMost, bool thorough,
                                                         bool* provedNone) {
  if (provedNone != nullptr) *provedNone = false;
  solver_->addWaiting();
  const SolverStop& stop = *solver_->stop;
  if (stop.stopped()) return std::nullopt;
  OsiClpSolverInterface linear(solver_->linear);
  silence(linear);
  for (int c = 0; c < linear.getNumCols(); ++c) linear.setInteger(c);
  try {
    CbcModel model(linear);
    silence(model);
    model.setMaximumNodes(nodesMost);
    model.setCutoff(below);
    model.setRandomSeed(1);
    const NodeStop nodeStop(solver_->stop);
    model.passInEventHandler(&nodeStop);
    CglGomory gomory;
    CglKnapsackCover cover;
    CglClique clique;
    clique.setStarCliqueReport(false);
    clique.setRowCliqueReport(false);
    CbcRounding rounding(model);
    CbcHeuristicDiveCoefficient dive(model);
    model.addHeuristic(&rounding);
    // With many patterns these cost more time than they save.
    if (thorough || columns_ <= kFewColumns) {
      model.addCutGenerator(&gomory, -1, "gomory");
      model.addCutGenerator(&cover, -1, "cover");
      model.addCutGenerator(&clique, -1, "clique");
      model.addHeuristic(&dive);
    }
    model.initialSolve();
    if (stop.stopped()) return std::nullopt;
    model.branchAndBound();
    const double* chosen = model.bestSolution();
    if (chosen == nullptr) {
      if (provedNone != nullptr) *provedNone = model.status() == 0 && !stop.stopped();
      return std::nullopt;
    }
    Whole whole;
    for (int c = 0; c < columns_; ++c) {
      whole.copies.push_back(static_cast<int>(std::lround(chosen[items_ + c])));
    }
    whole.cost = model.getObjValue();
    whole.proved = model.isProvenOptimal() && !stop.stopped();
    return whole;
  } catch (const CoinError&) {
    return std::nullopt;
  }
}

}  // namespace dryfit::joinery::cutting

#pragma once

#include <CbcEventHandler.hpp>
#include <ClpEventHandler.hpp>
#include <functional>
#include <memory>

namespace dryfit::joinery::cutting {

/// Asks now and then whether a solve may go on; once it may not, it is not asked again.
class SolverStop {
 public:
  explicit SolverStop(std::function<bool()> goOn) : goOn_(std::move(goOn)) {}

  [[nodiscard]] bool stopped() const { return stopped_; }
  /// At a node, a cut or a heuristic of the whole-number search: true says stop.
  bool askAtNode() {
    if (!stopped_ && goOn_ && !goOn_()) stopped_ = true;
    return stopped_;
  }
  /// At a step of the simplex method.
  bool askAtStep() {
    constexpr int kStepsBetween = 100;
    if (++steps_ < kStepsBetween) return stopped_;
    steps_ = 0;
    return askAtNode();
  }

 private:
  std::function<bool()> goOn_;
  int steps_ = 0;
  bool stopped_ = false;
};

/// Ends a whole-number search early.
class NodeStop final : public CbcEventHandler {
 public:
  explicit NodeStop(std::shared_ptr<SolverStop> shared) : stop_(std::move(shared)) {}
  CbcAction event(CbcEvent) override { return stop_->askAtNode() ? stop : noAction; }
  CbcAction event(CbcEvent which, void*) override { return event(which); }
  [[nodiscard]] CbcEventHandler* clone() const override { return new NodeStop(*this); }

 private:
  std::shared_ptr<SolverStop> stop_;
};

/// Ends a relaxed problem early.
class StepStop final : public ClpEventHandler {
 public:
  explicit StepStop(std::shared_ptr<SolverStop> shared) : stop_(std::move(shared)) {}
  int event(Event which) override {
    constexpr int kGoOn = -1, kStop = 5;
    return which == endOfIteration && stop_->askAtStep() ? kStop : kGoOn;
  }
  [[nodiscard]] ClpEventHandler* clone() const override { return new StepStop(*this); }

 private:
  std::shared_ptr<SolverStop> stop_;
};

}  // namespace dryfit::joinery::cutting

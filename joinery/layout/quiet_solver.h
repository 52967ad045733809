#pragma once

#include <CbcModel.hpp>
#include <OsiClpSolverInterface.hpp>

namespace dryfit::joinery::cutting {

/// Keeps the solver from printing; it asks at three places, and by a hint besides.
inline void silence(OsiClpSolverInterface& linear) {
  linear.messageHandler()->setLogLevel(0);
  linear.getModelPtr()->setLogLevel(0);
  linear.setHintParam(OsiDoReducePrint, true, OsiHintDo);
}

/// The same for a whole-number search. REQUIRES: nothing has been solved yet.
inline void silence(CbcModel& model) {
  model.setLogLevel(0);
  model.messageHandler()->setLogLevel(0);
  model.solver()->messageHandler()->setLogLevel(0);
}

}  // namespace dryfit::joinery::cutting

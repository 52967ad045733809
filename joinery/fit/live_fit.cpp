#include "joinery/fit/live_fit.h"

#include "joinery/joints/evaluate.h"

#include <utility>

namespace dryfit::joinery {

Result<std::shared_ptr<const DryFit>> LiveFit::update(const Model& model, Basis basis,
                                                      const Progress& progress, Unit unit) {
  work_ = {};
  Result<Piece> piece = evaluate(model, basis, numbers_);
  work_.numbers = numbers_.numbersWorkedOut;
  work_.joints = numbers_.jointsCut;
  if (!piece) return tl::unexpected(piece.error());
  Result<std::vector<kernel::Solid>> solids = solids_.solidsOf(*piece, progress);
  work_.solids = solids_.built();
  if (!solids) return tl::unexpected(solids.error());
  checks_.beginState();
  Result<std::vector<Finding>> findings = checkPiece(*piece, *solids, progress, &checks_, unit);
  work_.pairs = checks_.overlaps.asked();
  if (!findings) return tl::unexpected(findings.error());
  return std::make_shared<const DryFit>(
      DryFit{std::move(*piece), std::move(*solids), std::move(*findings)});
}

}  // namespace dryfit::joinery

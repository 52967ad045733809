#include "joinery/fit/dry_fit.h"

#include <algorithm>
#include <tuple>

#include "joinery/checks/checks.h"
#include "joinery/fit/solid_store.h"

namespace dryfit::joinery {
namespace {

bool comesBefore(const Finding& a, const Finding& b) {
  const auto rank = [](const Finding& f) {
    return std::tie(f.severity, f.kind, f.parts, f.joint, f.at.x, f.at.y, f.at.z);
  };
  return rank(a) < rank(b);
}

}  // namespace

kernel::Solid DryFit::placed(PartId id) const {
  return solids[id.index()].placed(piece.parts[id.index()].frame);
}

Result<std::vector<kernel::Solid>> buildSolids(const Piece& piece, const Progress& progress) {
  return SolidStore().solidsOf(piece, progress);
}

Result<std::vector<Finding>> checkPiece(const Piece& piece,
                                        const std::vector<kernel::Solid>& solids,
                                        const Progress& progress, CheckMemory* memory, Unit unit) {
  const int all = static_cast<int>(checks().size());
  int done = 0;
  const CheckInput input{piece, solids, memory, unit,
                         [&] { return !progress || progress(done, all); }};
  std::vector<Finding> findings;
  for (const CheckRow& row : checks()) {
    if (auto stop = input.stopIfAsked(); !stop) return tl::unexpected(stop.error());
    if (const auto ran = row.run(input, findings); !ran) {
      const bool stopped = ran.error().code == ErrorCode::cancelled;
      return tl::unexpected(stopped ? ran.error() : ran.error().within(std::string(row.name)));
    }
    ++done;
  }
  if (auto stop = input.stopIfAsked(); !stop) return tl::unexpected(stop.error());
  std::stable_sort(findings.begin(), findings.end(), comesBefore);
  return findings;
}

Result<DryFit> dryFit(const Model& model, Basis basis, const Progress& progress, Unit unit) {
  Result<Piece> piece = evaluate(model, basis);
  if (!piece) return tl::unexpected(piece.error());
  Result<std::vector<kernel::Solid>> solids = buildSolids(*piece, progress);
  if (!solids) return tl::unexpected(solids.error());
  Result<std::vector<Finding>> findings = checkPiece(*piece, *solids, progress, nullptr, unit);
  if (!findings) return tl::unexpected(findings.error());
  return DryFit{std::move(*piece), std::move(*solids), std::move(*findings)};
}

}  // namespace dryfit::joinery
